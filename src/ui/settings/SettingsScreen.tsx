import type { Settings } from '../../app/site/settings.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Section } from '../shared/Section.tsx'
import deviceTexts from '../../data/en/device.json'
import { PrefixField } from './PrefixField.tsx'
import { PhraseCheck } from './PhraseCheck.tsx'
import '../order/order.css'

type TextKey = {
  [K in keyof Settings]: Settings[K] extends string
    ? string extends Settings[K]
      ? K
      : never
    : never
}[keyof Settings]

function SettingText({ name, label, hint }: { name: TextKey; label: string; hint?: string }) {
  const value = useApp((s) => s.settings[name])
  const actions = useActions()
  return (
    <Field label={label} hint={hint}>
      {(parts) => (
        <input
          {...parts}
          className="input"
          autoComplete="off"
          value={value}
          onChange={(event) => actions.changeSettings({ [name]: event.target.value })}
        />
      )}
    </Field>
  )
}

function SettingTick({
  name,
  label,
}: {
  name: 'voiceOn' | 'silent' | 'speakNames'
  label: string
}) {
  const value = useApp((s) => s.settings[name])
  const actions = useActions()
  return (
    <label className="tick">
      <input
        type="checkbox"
        checked={value}
        onChange={(event) => actions.changeSettings({ [name]: event.target.checked })}
      />
      {label}
    </label>
  )
}

/** What a person sets on this device. */
export function SettingsScreen() {
  const settings = useApp((s) => s.settings)
  const actions = useActions()
  return (
    <Frame
      title="Settings"
      back={{ label: 'Back to the start', onBack: () => void actions.go({ name: 'home' }) }}
    >
      <p className="lead">Changes are kept on this device at once.</p>
      <div className="settingsBody">
        <Section
          title="Listening"
          about="No sound is stored or sent. Words are recognized on this device only."
        >
          <SettingTick name="voiceOn" label="Listen during a draw" />
          <SettingText
            name="modelFile"
            label="Speech model"
            hint="File name of a model archive in the models folder."
          />
        </Section>
        <Section title="Sound" about="Everything spoken also stands on the screen.">
          <Field label={`Volume: ${Math.round(settings.volume * 100)} %`}>
            {(parts) => (
              <input
                {...parts}
                className="range"
                type="range"
                min="0"
                max="1"
                step="0.05"
                value={settings.volume}
                onChange={(event) => actions.changeSettings({ volume: event.target.valueAsNumber })}
              />
            )}
          </Field>
          <div>
            <SettingTick name="silent" label="Silent: no prompts and no chimes" />
            <SettingTick name="speakNames" label="Allow prompts to say the patient’s name" />
          </div>
        </Section>
        <Section title="Site and person" about="These stand in the chart note and on the labels.">
          <SettingText name="siteName" label="Site" />
          <div className="pair">
            <SettingText name="collectorName" label="Your name" />
            <SettingText name="collectorInitials" label="Your initials" />
          </div>
        </Section>
        <Section title="Paper and labels" about="For printing.">
          <div className="pair">
            <Field label="Paper">
              {(parts) => (
                <select
                  {...parts}
                  className="input"
                  value={settings.paper}
                  onChange={(event) =>
                    actions.changeSettings({
                      paper: event.target.value === 'letter' ? 'letter' : 'A4',
                    })
                  }
                >
                  <option value="letter">Letter</option>
                  <option value="A4">A4</option>
                </select>
              )}
            </Field>
            <PrefixField
              key={settings.devicePrefix === '' ? 'none' : 'set'}
              value={settings.devicePrefix}
              texts={deviceTexts.prefix}
              onChange={(devicePrefix) => actions.changeSettings({ devicePrefix })}
            />
          </div>
        </Section>
        <Section title="Phrases" about="Try your own words before you rely on them.">
          <PhraseCheck />
        </Section>
      </div>
    </Frame>
  )
}
