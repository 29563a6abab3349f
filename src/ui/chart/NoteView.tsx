import type { Note } from '../../core/record/note.ts'

/** The chart note as it is read and printed. What is missing is marked in words and weight, not by color alone. */
export function NoteView({ note }: { readonly note: Note }) {
  return (
    <article className="note" aria-labelledby="note-title">
      <h1 id="note-title">{note.title}</h1>
      {note.warnings.map((warning) => (
        <p key={warning} className="note-warning" role="note">
          {warning}
        </p>
      ))}
      {note.sections.map((section, index) => (
        <section key={index} className="note-section">
          <h2>{section.title}</h2>
          <dl>
            {section.lines.map((line, lineIndex) => (
              <div key={lineIndex} className={line.missing ? 'note-line missing' : 'note-line'}>
                {line.label ? <dt>{line.label}</dt> : null}
                <dd>{line.value}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
      {note.addenda.length > 0 ? (
        <section className="note-section">
          <h2>Addenda</h2>
          <ol className="note-addenda">
            {note.addenda.map((addendum, index) => (
              <li key={index}>
                <p>{addendum.text}</p>
                <p className="note-by">
                  {addendum.by}, {addendum.at}. Reason: {addendum.why}
                </p>
              </li>
            ))}
          </ol>
        </section>
      ) : null}
    </article>
  )
}
