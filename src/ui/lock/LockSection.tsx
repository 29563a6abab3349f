import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { ChangePinForm } from './ChangePinForm.tsx'
import { NumberSetting } from './NumberSetting.tsx'
import { TurnOffForm } from './TurnOffForm.tsx'
import { SetPinForm } from './SetPinForm.tsx'
import { useLockTexts } from './useLockTexts.ts'
import './lock.css'

/** In the settings: whether a PIN locks this device, and what can be done about it. */
export function LockSection() {
  const { state, told, done, sealing, unsealing } = useApp((s) => s.lock)
  const actions = useActions()
  const { texts, fill } = useLockTexts()
  const { section } = texts
  return (
    <Section title={section.title} about={section.about}>
      <p>{state === 'off' ? section.off : section.on}</p>
      <div role="status">
        {told !== undefined && <p className="error">{told}</p>}
        {done !== undefined && <p>{done}</p>}
        {sealing && <p className="figures">{fill(section.sealing, sealing)}</p>}
        {unsealing && <p className="figures">{fill(section.unsealing, unsealing)}</p>}
      </div>
      {state === 'off' ? (
        <SetPinForm />
      ) : (
        <>
          <button type="button" className="button" onClick={() => actions.lockNow()}>
            {section.lockNow}
          </button>
          <NumberSetting
            name="lockAfter_min"
            label={section.afterMinutes}
            hint={section.afterHint}
          />
          <ChangePinForm />
          <TurnOffForm />
        </>
      )}
    </Section>
  )
}
