import type { Note } from '../../core/record/note.ts'

/** The chart note as it is read and printed. What is missing is marked in words and weight, not by color alone. */
export function NoteView({ note }: { readonly note: Note }) {
  return (
    <article className="note" aria-labelledby="note-title">
      <h2 id="note-title">{note.title}</h2>
      {note.warnings.map((warning) => (
        <p key={warning} className="noteWarning" role="note">
          {warning}
        </p>
      ))}
      {note.sections.map((section, index) => (
        <section key={index} className="noteSection">
          <h3>{section.title}</h3>
          <dl>
            {section.lines.map((line, lineIndex) => (
              <div key={lineIndex} className={line.missing ? 'noteLine missing' : 'noteLine'}>
                {line.label ? <dt>{line.label}</dt> : null}
                <dd>{line.value}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
      {note.addenda.length > 0 ? (
        <section className="noteSection">
          <h3>Addenda</h3>
          <ol className="noteAddenda">
            {note.addenda.map((addendum, index) => (
              <li key={index}>
                <p>{addendum.text}</p>
                <p className="noteBy">
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
