import { isSpecimenNumber } from '../../core/protocol/specimenNumber.ts'
import { factsOf } from '../../core/record/factsOf.ts'
import { within } from '../../ports/patience.ts'
import type { Clock } from '../../ports/clock.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { DrawLogs } from './drawLogs.ts'

/** So many of the latest draws are looked through: a laboratory gives its numbers again after a while. */
const MOST_DRAWS = 200
/** A disk that does not answer holds no label up. */
const PATIENCE_ms = 1500

interface UsedNumbersDeps {
  readonly logs: Pick<DrawLogs, 'load'>
  readonly clock: Clock
  /** The draws of this device, the latest first. */
  readonly draws: () => readonly StoredDraw[]
}

/** Numbers of the laboratory's own labels in the draws of this device. */
interface UsedNumbers {
  /** Another draw in which a tube has that number, as far as the store could be read in time. */
  otherDraw(text: string, drawId: string): Promise<string | undefined>
}

export function createUsedNumbers({ logs, clock, draws }: UsedNumbersDeps): UsedNumbers {
  /** Of closed draws, which take no further number. */
  const known = new Map<string, readonly string[]>()

  async function numbersOf(drawId: string, closed: boolean): Promise<readonly string[]> {
    const kept = known.get(drawId)
    if (kept) return kept
    const log = await logs.load(drawId).catch(() => undefined)
    if (!log || log.fault) return []
    const numbers = [...factsOf(log).accessions.values()].map(({ accession }) => accession)
    if (closed) known.set(drawId, numbers)
    return numbers
  }

  async function search(text: string, drawId: string): Promise<string | undefined> {
    const others = draws().filter((draw) => draw.drawId !== drawId)
    for (const draw of others.slice(0, MOST_DRAWS)) {
      const numbers = await numbersOf(draw.drawId, draw.closed)
      if (numbers.some((number) => isSpecimenNumber(text, number))) return draw.drawId
    }
    return undefined
  }

  return {
    otherDraw: (text, drawId) =>
      within(clock, PATIENCE_ms, search(text, drawId), () => new Error('late')).catch(
        () => undefined,
      ),
  }
}
