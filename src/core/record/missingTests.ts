import { defined } from '../basics/defined.ts'
import { isSevere } from '../protocol/exceptionTable.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { SetAside } from '../protocol/events.ts'
import type { DrawFacts } from './drawFacts.ts'
import { isOfStranger, tubesForOrder } from './labeledTubes.ts'
import { saysWrongPerson } from './saysWrongPerson.ts'

/** Why a test that was ordered has no blood: the nearest thing that the record holds, a code of the note's words. */
export const MISSING_WHY = [
  'consentRefused',
  'consentWithdrawn',
  'identityMismatch',
  'notPrepared',
  'tubeLost',
  'noBlood',
  'noFurtherPuncture',
  'reaction',
  'stopped',
  'noTube',
  'open',
  'notRecorded',
] as const
export type MissingWhy = (typeof MISSING_WHY)[number]

export interface MissingTest {
  readonly test: string
  readonly why: MissingWhy
  /** How its tube was lost. */
  readonly lost?: SetAside
  /** What befell the patient. */
  readonly befell?: ExceptionKind
  /** The reason in the words of whoever closed the draw, if they gave one. */
  readonly reason?: string
}

/**
 * Tests of the order that no tube for the laboratory holds, each with why. Of a draw that goes on they are open. Blood
 * of another person than the order names serves none of them, whenever that was found.
 */
export function missingTests(facts: DrawFacts): readonly MissingTest[] {
  const served = new Set(tubesForOrder(facts).flatMap(({ tube }) => tube.tests))
  return facts.opened.order.tests
    .filter((test) => !served.has(test))
    .map((test) => defined({ test, ...whyOf(facts, test), reason: facts.endReason }))
}

type Why = Pick<MissingTest, 'why' | 'lost' | 'befell'>

/** What ends the whole draw before any blood comes first, then what befell its tube, then how the draw ended. */
function whyOf(facts: DrawFacts, test: string): Why {
  if (saysWrongPerson(facts.addenda)) return { why: 'identityMismatch' }
  if (facts.plan.uncovered.some((left) => left.test === test)) return { why: 'noTube' }
  const raised = (kind: ExceptionKind): boolean =>
    facts.exceptions.some((fact) => fact.kind === kind)
  if (facts.consent?.given === false) return { why: 'consentRefused' }
  if (raised('consentWithdrawn')) return { why: 'consentWithdrawn' }
  const noNeedle = facts.punctures.every(({ needleIn }) => needleIn.length === 0)
  if (isOfStranger(facts)) return { why: 'identityMismatch' }
  return (
    (noNeedle && facts.notPrepared.length > 0 && facts.closed && { why: 'notPrepared' }) ||
    ofItsTube(facts, test) ||
    ofTheEnd(facts)
  )
}

function ofItsTube(facts: DrawFacts, test: string): Why | undefined {
  if (!facts.closed) return undefined
  const ids = [...facts.opened.plan.tubes, ...facts.plan.tubes]
    .filter((tube) => tube.tests.includes(test))
    .map(({ id }) => id)
  const lost = ids.flatMap((id) => facts.swaps.get(id) ?? []).at(-1)?.why
  if (lost) return { why: 'tubeLost', lost }
  const wasOn = facts.tubes.some(({ tube, fill }) => ids.includes(tube.id) && fill === 'empty')
  return wasOn ? { why: 'noBlood' } : undefined
}

function ofTheEnd({ closed, decisions, exceptions, noFurtherPuncture }: DrawFacts): Why {
  if (noFurtherPuncture) return { why: 'noFurtherPuncture' }
  const befell = exceptions.findLast(({ kind }) => isSevere(kind) && !UNTOLD.has(kind))?.kind
  const stopped = decisions.some(({ decision }) => decision === 'stop')
  if (closed?.outcome === 'stopped' || stopped) {
    return befell ? { why: 'reaction', befell } : { why: 'stopped' }
  }
  return { why: closed ? 'notRecorded' : 'open' }
}

/** A collector's needlestick is not for the patient's record; a bare stop gives no reason of its own. */
const UNTOLD: ReadonlySet<ExceptionKind> = new Set(['needlestick', 'stopEverything'])
