import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'

/** Before a log is taken in whose key nobody here has named: who it is of, what is proven and what not. */
export function ImportQuestion() {
  const asked = useApp((s) => s.importQuestion)
  const actions = useActions()
  const { import: texts } = useServices().site.texts.log
  const [name, setName] = useState('')
  if (!asked) return null
  const answer = (take: boolean): void => {
    void actions.answerImport(take, take ? name : '')
    setName('')
  }
  return (
    <section className="warnBox" aria-labelledby="import-question">
      <div role="alert">
        <h2 id="import-question">{texts.title}</h2>
        <p>{asked.question}</p>
      </div>
      <ul>
        {asked.lines.map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ul>
      {asked.mayName && (
        <TextField label={texts.name} hint={texts.nameHint} value={name} onChange={setName} />
      )}
      <div className="rowOfButtons">
        <button type="button" className="button go" onClick={() => answer(true)}>
          {texts.take}
        </button>
        <button type="button" className="button" onClick={() => answer(false)}>
          {texts.leave}
        </button>
      </div>
    </section>
  )
}
