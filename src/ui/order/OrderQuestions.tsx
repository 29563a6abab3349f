import { fillText } from '../../core/basics/fillText.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { fieldId } from './useDraft.ts'

/** What an order file left open, each with a button to confirm it; nothing is planned before all are. */
export function OrderQuestions() {
  const questions = useApp((s) => s.draft.questions)
  const actions = useActions()
  const { panel } = useServices().site.texts.order
  if (questions.length === 0) return null
  const confirm = (text: string): void =>
    actions.editDraft({
      questions: questions.map((each) => (each.text === text ? { text, confirmed: true } : each)),
    })
  return (
    <section className="warnBox" aria-labelledby={fieldId('questions')}>
      <h2 id={fieldId('questions')} tabIndex={-1}>
        {panel.title}
      </h2>
      <p>{panel.about}</p>
      <ul className="bare orderQuestions">
        {questions.map(({ text, confirmed }, i) => (
          <li key={i}>
            <span>{text}</span>
            {confirmed ? (
              <strong>{panel.confirmed}</strong>
            ) : (
              <button
                type="button"
                className="button"
                aria-label={fillText(panel.confirmLabel, { question: text })}
                onClick={() => confirm(text)}
              >
                {panel.confirm}
              </button>
            )}
          </li>
        ))}
      </ul>
      <button type="button" className="button" onClick={() => actions.newDraw()}>
        {panel.leave}
      </button>
    </section>
  )
}
