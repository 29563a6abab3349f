import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import { isSevere } from '../../../src/core/protocol/exceptionTable.ts'
import { stepOf, type StepId } from '../../../src/core/protocol/steps.ts'
import type { Departure } from './departures.ts'
import { followed } from './followed.ts'
import { tried, waited, type Moment } from './moment.ts'

/** Where an alarm finds the draw: nothing done yet, the band on, the needle in with a tube on, and the needle out. */
const SEVERE_AT: readonly StepId[] = ['consent', 'vein', 'release', 'shield', 'labels']

/** Every alarm at each of these steps, each followed to its end. */
export function severeWays(straight: readonly Moment[], seen: Set<string>): readonly Departure[] {
  const kinds = EXCEPTION_KINDS.filter(isSevere)
  const at = SEVERE_AT.flatMap((id) => straight.find(({ state }) => stepOf(state).id === id) ?? [])
  return kinds.flatMap((kind) =>
    at.flatMap((moment) => {
      const command = { type: 'raise', kind } as const
      const { decision, moment: after } = tried(moment, command, { confirmed: true })
      if (decision.kind !== 'record') return []
      const moments = followed(waited(after, 1000), seen)
      return [{ name: kind, at: stepOf(moment.state).id, moments }]
    }),
  )
}
