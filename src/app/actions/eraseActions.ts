import { fillText } from '../../core/basics/fillText.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import { calendarDate } from '../../core/time/format.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import type { Day } from '../day/createDay.ts'
import type { HandOver } from '../handOver/createHandOver.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import { oldPractice, PRACTICE_KEPT_ms } from '../record/oldPractice.ts'
import { oldDraws } from '../record/oldDraws.ts'

const DAY_ms = 86_400_000

type EraseActions = Pick<AppActions, 'eraseRecord' | 'eraseOld' | 'saveOld'>

/**
 * Takes records off the device: one, or all that are older than the site keeps them. None of a patient by itself.
 */
export function createEraseActions(
  parts: AppParts,
  running: RunningDraw,
  exportRecord: AppActions['exportRecord'],
  day: Pick<Day, 'noteErased' | 'book'>,
  handOver: Pick<HandOver, 'isWaiting'>,
): { readonly actions: EraseActions; dropOldPractice(): Promise<void> } {
  const { get, set, guarded, logStore, logs } = parts
  const { texts } = parts.site
  const old = (): readonly StoredDraw[] =>
    oldDraws(get().draws, get().settings.retention_days, parts.clock.read().wall_ms)

  /** What is being recorded, or is recorded and nowhere stored, is not erased. */
  const mayErase = (drawId: string): boolean =>
    !(running.log(drawId) && running.isWriting()) &&
    !logs.unsaved().some((unsaved) => unsaved.drawId === drawId)

  async function erase(drawIds: readonly string[]): Promise<number> {
    let erased = 0
    const left: string[] = []
    for (const drawId of drawIds) {
      if (get().series.some(({ id }) => id === drawId)) {
        set({ trouble: texts.screens.series.keepFirst })
        continue
      }
      if (!mayErase(drawId)) {
        set({ trouble: texts.lock.told.notWhileOpen })
        continue
      }
      if (handOver.isWaiting(drawId)) {
        set({ trouble: fillText(texts.handOver.told.notErased, { drawId }) })
        continue
      }
      // Before: an order whose draw was made must never come to wait for one again.
      const here = get().bench.rows.filter(({ specimen }) => specimen.drawId === drawId)
      await day.noteErased(drawId)
      const done = await guarded(texts.lock.told.unerased, () => logStore.erase(drawId))
      if (!done.ok) break
      const records = new Map(get().records)
      records.delete(drawId)
      set({ records })
      left.push(...here.map(({ specimen }) => specimen.number))
      erased++
    }
    if (left.length > 0) {
      set({ trouble: fillText(texts.lock.told.tubesHere, { numbers: left.join(', ') }) })
    }
    await parts.refreshDraws()
    return erased
  }

  const actions: EraseActions = {
    eraseRecord: async (drawId) => {
      if ((await erase([drawId])) > 0) set({ screen: { name: 'home' } })
    },
    eraseOld: async () => {
      const { retention_days } = get().settings
      const { wall_ms, offset_min } = parts.clock.read()
      const first = calendarDate({ at_ms: wall_ms - retention_days * DAY_ms, offset_min })
      const erased = await erase(old().map(({ drawId }) => drawId))
      // The lists of those days name the same patients.
      if (retention_days > 0)
        await guarded(texts.lock.told.unerased, () => day.book.eraseBefore(first))
      return erased
    },
    saveOld: async () => {
      for (const { drawId } of old()) {
        const file = await exportRecord(drawId, 'log')
        if (!file) return
        parts.page.saveText(file)
      }
    },
  }
  return {
    actions,
    /** Rehearsals that nobody came back to for a day. */
    async dropOldPractice() {
      const now_ms = parts.clock.read().wall_ms
      const old = oldPractice(get().draws, now_ms).filter(
        ({ drawId }) => mayErase(drawId) && !get().series.some(({ id }) => id === drawId),
      )
      const left: string[] = []
      for (const { drawId } of old) {
        const last = (await logs.load(drawId).catch(() => undefined))?.entries.at(-1)
        // Somebody may still be rehearsing it on another page.
        if (last && now_ms - last.at.at_ms > PRACTICE_KEPT_ms) left.push(drawId)
      }
      if (left.length > 0) await erase(left)
    },
  }
}
