import type { Note } from '../../core/record/note.ts'
import { useTexts } from '../shared/useTexts.ts'

/** The chart note as it is read and printed. What is missing is marked in words and weight, not by color alone. */
export function NoteView({ note }: { readonly note: Note }) {
  const { texts, fill } = useTexts()
  const { chart } = texts
  return (
    <article className="note" aria-labelledby="note-title">
      <h2 id="note-title">{note.title}</h2>
      {note.warnings.map((warning, i) => (
        <p key={i} className="noteWarning" role="note">
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
          <h3>{chart.addenda}</h3>
          <ol className="noteAddenda">
            {note.addenda.map((addendum, index) => (
              <li key={index}>
                <p>{addendum.text}</p>
                <p className="noteBy">
                  {fill(chart.addendumBy, { by: addendum.by, at: addendum.at, why: addendum.why })}
                </p>
              </li>
            ))}
          </ol>
        </section>
      ) : null}
    </article>
  )
}
