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
