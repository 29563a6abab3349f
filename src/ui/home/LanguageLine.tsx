import { LANGUAGES } from '../../core/basics/language.ts'
import { useActions, useServices } from '../shared/appContext.tsx'

/** For whoever opens the app for the first time: the other languages, each in its own words. */
export function LanguageLine() {
  const actions = useActions()
  const { names, setting, language: shown } = useServices().site.texts.language
  return (
    <nav className="languageLine" aria-label={setting.title}>
      {LANGUAGES.filter((each) => each !== shown).map((each) => (
        <button
          key={each}
          type="button"
          className="button"
          lang={each}
          onClick={() => actions.changeSettings({ language: each })}
        >
          {names[each]}
        </button>
      ))}
    </nav>
  )
}
