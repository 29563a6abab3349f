import { useState, type SyntheticEvent } from 'react'

interface AddendumFormProps {
  readonly onAddendum: (text: string, why: string) => void
}

/** A correction stands below the note with who, when and why; the note itself is never changed. */
export function AddendumForm({ onAddendum }: AddendumFormProps) {
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
      <h2>Add a correction</h2>
      <p>It is added with your name and the time. The first text stays as it is.</p>
      <label>
        What should be added
        <textarea rows={3} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <label>
        Why
        <input type="text" value={why} onChange={(event) => setWhy(event.target.value)} />
      </label>
      <button type="submit" className="button go" disabled={!ready}>
        Add to the record
      </button>
    </form>
  )
}
