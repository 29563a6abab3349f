import type { Ask } from './asks.ts'
import type { Command } from './commands.ts'
import { impossible, record, type Decision } from './decision.ts'
import type { DrawEvent, UnlabelledEnd } from './events.ts'
import * as draw from './facts.ts'
import type { DrawState } from './state.ts'
import { tubeLost } from './tubeRules.ts'

const ASKED: Readonly<Record<UnlabelledEnd, Ask>> = {
  stayedInHand: 'unlabelledInHand',
  discarded: 'unlabelledDiscard',
  sentAsIs: 'unlabelledAsIs',
}

/**
 * What becomes of a tube that was found without a label: named, asked again, and charted with who decided. A label is
 * never put on from memory; one that stayed in hand is labeled and then read back like any other. Laboratories reject
 * an unlabeled tube and want it drawn again (labeling pages of hospital laboratories, second-hand).
 */
export function settleUnlabelled(
  s: DrawState,
  { tubeId, how, by }: Extract<Command, { type: 'settleUnlabelled' }>,
  confirmed: boolean,
): Decision {
  if (!draw.exceptionIsOpen(s, 'unlabelledTube')) return impossible('nothingOpen')
  if (!draw.specimens(s).some(({ id }) => id === tubeId)) return impossible('noSpecimens')
  if (by.trim() === '') return impossible('notDecided')
  // Once the draw is closed nobody stands beside the patient.
  if (s.closed && how === 'stayedInHand') return impossible('closed')
  if (!confirmed) return { kind: 'ask', ask: ASKED[how] }
  const lost: DrawEvent[] = how === 'discarded' ? [tubeLost(s, 'unlabelledTube', tubeId)] : []
  return record({ type: 'unlabelledSettled', tubeId, how, by: by.trim() }, ...lost, {
    type: 'exceptionEnded',
    kind: 'unlabelledTube',
    how,
  })
}

/** Which tube has no label, by its number in the rack. Said again it changes nothing and is offered where it was. */
export function unlabelledIs(s: DrawState, number: number): Decision {
  if (s.closed) return impossible('closed')
  if (!draw.unlabelledIsOpen(s)) return impossible('nothingOpen')
  const tubeId = s.plan.tubes[number - 1]?.id
  const isThere = draw.specimens(s).some(({ id }) => id === tubeId)
  if (tubeId === undefined || !isThere) return impossible('noSpecimens')
  if (namedOf(s) === tubeId) return record()
  return record({ type: 'exceptionRaised', kind: 'unlabelledTube', tubeId })
}

/** What becomes of the tube that was named, or of the only one it can be; whoever draws says so. */
export function unlabelledEnd(s: DrawState, how: UnlabelledEnd, confirmed: boolean): Decision {
  if (s.closed) return impossible('closed')
  if (!draw.unlabelledIsOpen(s)) return impossible('nothingOpen')
  const tubeId = unlabelledTubeOf(s)
  if (tubeId === undefined) return impossible('unlabelledWhich')
  const { name, initials, id } = s.collector
  return settleUnlabelled(
    s,
    { type: 'settleUnlabelled', tubeId, how, by: name || initials || id },
    confirmed,
  )
}

const namedOf = (s: DrawState): string | undefined =>
  s.exceptions.find(({ kind }) => kind === 'unlabelledTube')?.tubeId

/** The tube that was named, or the only one there is. A label that was read back may have come off since. */
function unlabelledTubeOf(s: DrawState): string | undefined {
  const [only, ...others] = draw.specimens(s)
  return namedOf(s) ?? (others.length === 0 ? only?.id : undefined)
}

/** The tube that a question is about. */
export function tubeAsked(s: DrawState, about: Command | undefined): string | undefined {
  if (about?.type === 'unlabelledEnd') return unlabelledTubeOf(s)
  return about && 'tubeId' in about ? about.tubeId : undefined
}
