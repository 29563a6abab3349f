import { LANGUAGES } from '../../app/site/languages.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** The language of everything but the phrases; each is named in its own words, so that it is found again. */
export function LanguageSelect() {
  const language = useApp((s) => s.settings.language)
  const actions = useActions()
  const { settings } = useTexts().texts
  return (
    <Section title={settings.language} about={settings.languageAbout}>
      <SelectField
        label={settings.language}
        options={LANGUAGES}
        nameOf={(each) => settings.languages[each]}
        value={language}
        onChange={(each) => actions.changeSettings({ language: each })}
      />
    </Section>
  )
}
