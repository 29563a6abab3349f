import type { MomentTime, SittingPart } from '../../core/order/sitting.ts'
import { dueOf_ms } from '../../core/series/due.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface SittingWhenProps {
  readonly part: SittingPart
  /** What is known so far, as local times at UTC. */
  readonly moments: readonly MomentTime[]
}

/** When a sample of an order is due: a trough before the dose, others after what they are counted from. */
export function SittingWhen({ part, moments }: SittingWhenProps) {
  const { texts, fill } = useTexts()
  const { site } = useServices()
  const { series: t } = texts
  const { from, after_min, tolerance_min = 0, apart } = part
  const at = (at_ms: number): string => timeOfDay({ at_ms, offset_min: 0 })
  const when = (): string => {
    if (from === undefined || after_min === undefined) return t.noDue
    const moment = site.texts.note.words.moment[from]
    const due_ms = dueOf_ms(part, moments)
    const first_min = after_min - tolerance_min
    if (from !== 'nextDose') {
      const due = due_ms === undefined ? [] : [fill(t.dueOn, { at: at(due_ms) })]
      return [fill(t.after, { minutes: after_min, moment }), ...due].join(' ')
    }
    const dose_ms = moments.findLast((told) => told.moment === from)?.at_ms
    if (dose_ms === undefined) return fill(t.before, { minutes: -first_min, moment })
    return fill(t.beforeDose, { at: at(dose_ms), from: at(dose_ms + first_min * 60_000) })
  }
  return <p>{[when(), ...(apart ? [t.apart[apart]] : [])].join(' ')}</p>
}
