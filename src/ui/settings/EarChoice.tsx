import { useEffect, useState } from 'react'
import type { AppServices } from '../../app/appServices.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { SettingTick } from './SettingTick.tsx'

type Outputs = Awaited<ReturnType<AppServices['earpiece']['list']>>

/** To which ear prompts go, a tone to find out, and what is to happen while it is gone. */
export function EarChoice() {
  const earId = useApp((s) => s.settings.earId)
  const trouble = useApp((s) => s.earTrouble)
  const { earpiece } = useServices()
  const { settings } = useTexts().texts
  const { choosing } = earpiece
  return (
    <>
      {choosing === 'list' && <EarList />}
      {choosing === 'asked' && <EarAsked />}
      <p className="soft">{settings.earHints[choosing]}</p>
      {earId !== '' && <SettingTick name="speakWithoutEar" />}
      {earId !== '' && trouble && (
        <p role="status">
          <strong>{trouble.what}</strong> {trouble.advice}
        </p>
      )}
      {choosing !== 'none' && <EarTest />}
    </>
  )
}

/** The outputs of this machine. One that was chosen stays in the list while it is gone. */
function EarList() {
  const { earpiece } = useServices()
  const actions = useActions()
  const earId = useApp((s) => s.settings.earId)
  const earName = useApp((s) => s.settings.earName)
  const { texts, fill } = useTexts()
  const { settings } = texts
  const [outputs, setOutputs] = useState<Outputs>([])
  const look = (): void => void earpiece.list().then(setOutputs)
  useEffect(() => {
    let isShown = true
    void earpiece.list().then((found) => isShown && setOutputs(found))
    return () => {
      isShown = false
    }
  }, [earpiece])
  const chosen = { id: earId, name: earName }
  const isGone = earId !== '' && !outputs.some(({ id }) => id === earId)
  const all = isGone ? [...outputs, chosen] : outputs
  const named = (id: string): string => {
    if (id === '') return settings.earLoudspeaker
    const at = all.findIndex((each) => each.id === id)
    return all[at]?.name || fill(settings.earNumbered, { n: at + 1 })
  }
  const choose = (id: string): void =>
    actions.changeSettings({ earId: id, earName: all.find((each) => each.id === id)?.name ?? '' })
  return (
    <>
      <SelectField
        label={settings.ear}
        hint={outputs.length === 0 ? settings.earNone : undefined}
        options={['', ...all.map(({ id }) => id)]}
        nameOf={named}
        value={earId}
        onChange={choose}
      />
      <div>
        <button type="button" className="button" onClick={look}>
          {settings.earLook}
        </button>
      </div>
    </>
  )
}

/** Where the browser has a question of its own. */
function EarAsked() {
  const { earpiece } = useServices()
  const actions = useActions()
  const earId = useApp((s) => s.settings.earId)
  const earName = useApp((s) => s.settings.earName)
  const { texts, fill } = useTexts()
  const { settings } = texts
  const name =
    earId === '' ? settings.earLoudspeaker : earName || fill(settings.earNumbered, { n: 1 })
  async function ask(): Promise<void> {
    const chosen = await earpiece.ask()
    if (chosen) actions.changeSettings({ earId: chosen.id, earName: chosen.name })
  }
  return (
    <>
      <p>
        {settings.ear}: <strong>{name}</strong>
      </p>
      <div>
        <button type="button" className="button" onClick={() => void ask()}>
          {settings.earChoose}
        </button>
        {earId !== '' && (
          <button
            type="button"
            className="button"
            onClick={() => actions.changeSettings({ earId: '', earName: '' })}
          >
            {settings.earLoudspeaker}
          </button>
        )}
      </div>
    </>
  )
}

function EarTest() {
  const actions = useActions()
  const { settings } = useTexts().texts
  const [outcome, setOutcome] = useState('')
  async function test(): Promise<void> {
    setOutcome('')
    setOutcome(await actions.testEar())
  }
  return (
    <div>
      <button type="button" className="button" onClick={() => void test()}>
        {settings.testEar}
      </button>
      <p role="status">{outcome}</p>
    </div>
  )
}
