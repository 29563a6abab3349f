import { useState, type SyntheticEvent } from 'react'
import { Tick } from '../shared/Tick.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface AddendumFormProps {
  readonly onAddendum: (text: string, why: string, wrongPerson?: true) => void
}

/** A correction stands below the note with who, when and why; the note itself is never changed. */
export function AddendumForm({ onAddendum }: AddendumFormProps) {
  const { chart } = useTexts().texts
  const [text, setText] = useState('')
  const [why, setWhy] = useState('')
  const [wrong, setWrong] = useState(false)
  const ready = text.trim() !== '' && why.trim() !== ''
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault()
    if (!ready) return
    onAddendum(text.trim(), why.trim(), ...(wrong ? [true as const] : []))
    setText('')
    setWhy('')
    setWrong(false)
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
      <Tick label={chart.wrongPerson} checked={wrong} onChange={setWrong} />
      <button type="submit" className="button go" disabled={!ready}>
        {chart.add}
      </button>
    </form>
  )
}
