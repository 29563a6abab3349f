import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Clinic, OtherDraw } from '../hub/clinic.ts'
import type { OwnStock } from '../site/ownStock.ts'

/** So many at a time: to read a log takes milliseconds, and after a day alone there are hundreds. */
const AT_ONCE_n = 10
const PAUSE_ms = 250

export interface CountOthersDeps {
  readonly clinic: Pick<Clinic, 'load'>
  readonly clock: Clock
  readonly stock: Pick<OwnStock, 'mayTake'>
  readonly countDown: (logs: readonly DrawLog[]) => Promise<void>
}

/** Takes what closed draws of other devices used off the stock that the clinic has in common, a few at a time. */
export function createCountOthers({ clinic, clock, stock, countDown }: CountOthersDeps) {
  const looked = new Set<string>()
  let left: readonly OtherDraw[] = []
  let isWaiting = false

  async function some(): Promise<void> {
    isWaiting = false
    const now = left.filter((draw) => !looked.has(draw.drawId) && stock.mayTake(draw))
    left = now.slice(AT_ONCE_n)
    const logs = now.slice(0, AT_ONCE_n).flatMap(({ drawId }) => {
      looked.add(drawId)
      const log = clinic.load(drawId)
      return log && !log.fault ? [log] : []
    })
    if (logs.length > 0) await countDown(logs)
    if (left.length > 0) later()
  }
  function later(): void {
    if (isWaiting) return
    isWaiting = true
    wakeIn(clock, PAUSE_ms, () => void some())
  }

  return {
    /** @param draws those that other devices write */
    look(draws: readonly OtherDraw[]): void {
      left = draws.filter(({ closed, invented }) => closed && !invented)
      if (left.length > 0) later()
    },
  }
}
