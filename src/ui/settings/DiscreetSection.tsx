import { useApp, useActions, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { EarChoice } from './EarChoice.tsx'
import { SettingTick } from './SettingTick.tsx'

/** The tones that stand for spoken prompts, in the order in which a draw has them. */
const TONES = ['next', 'asked', 'look', 'handle', 'told'] as const

/** What a patient in the chair hears of it all: codes, tones, or nothing but an ear. */
export function DiscreetSection() {
  const { settings } = useTexts().texts
  return (
    <Section title={settings.discreetTitle} about={settings.discreetTitleAbout}>
      <SettingTick name="discreet" />
      <p className="soft">{settings.discreetAbout}</p>
      <Tones />
      <EarChoice />
    </Section>
  )
}

function Tones() {
  const isOn = useApp((s) => s.settings.tonesOnly)
  const actions = useActions()
  const { phrases } = useServices().site
  const { texts, fill } = useTexts()
  const { settings } = texts
  const first = (key: string): string => phrases.phrases[key]?.[0] ?? ''
  return (
    <>
      <SettingTick name="tonesOnly" />
      <p className="soft">
        {fill(settings.tonesOnlyAbout, { on: first('tonesOnly'), off: first('wordsAgain') })}
      </p>
      {isOn && (
        <ul className="toneList">
          {TONES.map((name) => (
            <li key={name}>
              <button
                type="button"
                className="button"
                aria-label={fill(settings.hearToneOf, { tone: settings.tones[name] })}
                onClick={() => actions.hearTone(name)}
              >
                {settings.hearTone}
              </button>
              {settings.tones[name]}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
