import { LANGUAGES } from '../../core/basics/language.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { SelectField } from '../shared/SelectField.tsx'

/** The language of the screens, each named in itself, and what it does not change. */
export function LanguageSection() {
  const language = useApp((s) => s.settings.language)
  const actions = useActions()
  const { site, reader, hasVoice } = useServices()
  const { setting, names, language: shown } = site.texts.language
  return (
    <Section title={setting.title} about={setting.about}>
      <SelectField
        label={setting.label}
        options={LANGUAGES}
        nameOf={(each) => names[each]}
        value={language}
        onChange={(each) => actions.changeSettings({ language: each })}
      />
      {language !== shown && <p role="status">{setting.waits}</p>}
      <p className="soft">{setting.phrases}</p>
      <p className="soft">{setting.names}</p>
      <p className="soft">{setting.translation}</p>
      {!hasVoice && (
        <p className="soft">{reader.isThere() ? setting.notRecorded : setting.noVoice}</p>
      )}
    </Section>
  )
}
