import { useState, type SyntheticEvent } from 'react'
import { useTexts } from '../shared/useTexts.ts'

interface AddendumFormProps {
  readonly onAddendum: (text: string, why: string) => void
}

/** A correction stands below the note with who, when and why; the note itself is never changed. */
export function AddendumForm({ onAddendum }: AddendumFormProps) {
  const { chart } = useTexts().texts
  const [text, setText] = useState('')
  const [why, setWhy] = useState('')
  const ready = text.trim() !== '' && why.trim() !== ''
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault()
    if (!ready) return
    onAddendum(text.trim(), why.trim())
    setText('')
    setWhy('')
  }
  return (
    <form className="addendum noPrint" onSubmit={submit}>
      <h2>{chart.correct}</h2>
      <p>{chart.correctAbout}</p>
      <label>
        {chart.addendum}
        <textarea rows={3} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <label>
        {chart.addendumWhy}
        <input type="text" value={why} onChange={(event) => setWhy(event.target.value)} />
      </label>
      <button type="submit" className="button go" disabled={!ready}>
        {chart.add}
      </button>
    </form>
  )
}
