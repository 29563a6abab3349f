import type { Approval } from '../../core/order/order.ts'
import type { SeriesGoAhead, SeriesHold } from '../../core/order/sitting.ts'
import { stopsForGood, stopsToDecide } from '../../core/plan/decisions.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface RequestHoldProps {
  /** Plans of the draws that the request is for. */
  readonly plans?: readonly Plan[]
  readonly approvals: readonly Approval[]
  /** Why the rest of a series waits. */
  readonly holds?: readonly SeriesHold[]
  readonly wentOn?: readonly SeriesGoAhead[]
}

/** Whether what is on this paper may be drawn: what holds it, with a line for who decides, and what was decided. */
export function RequestHold({ plans = [], approvals, holds = [], wentOn = [] }: RequestHoldProps) {
  const { texts, fill } = useTexts()
  const { request, plan: t, series } = texts
  const words = useServices().site.texts.note.words.hold
  const whysOf = (of: readonly SeriesHold[]): string =>
    [...new Set(of.map(({ why }) => words[why]))].join(', ')
  const waits = plans.flatMap((plan) =>
    stopsToDecide(plan)
      .filter(({ about }) => !approvals.some((given) => given.about === about))
      .flatMap(({ stops }) => stops),
  )
  const stopped = [...plans.flatMap(stopsForGood), ...waits].map(({ text }) => text)
  const held = holds.length > 0 ? [fill(request.heldAfter, { whys: whysOf(holds) })] : []
  const reasons = [...new Set([...stopped, ...held])]
  const decided = [
    ...approvals.map(
      ({ about, by, reason }) => `${t.decideAbout[about]}. ${fill(t.decided, { by, reason })}`,
    ),
    ...wentOn.map((on) => fill(series.wentOn, { whys: whysOf(on.holds), by: on.by, why: on.why })),
  ]
  return (
    <>
      {reasons.length > 0 && (
        <section className="requestHeld" aria-label={request.held}>
          <p>
            <strong>{request.held}</strong>
          </p>
          <ul>
            {reasons.map((reason, i) => (
              <li key={i}>{reason}</li>
            ))}
          </ul>
          <p>{request.decidedBy} ______________________</p>
        </section>
      )}
      {decided.length > 0 && (
        <section aria-label={request.decisions}>
          <h3>{request.decisions}</h3>
          <ul>
            {decided.map((text, i) => (
              <li key={i}>{text}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
