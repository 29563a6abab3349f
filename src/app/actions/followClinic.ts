import { elsewhereTexts } from '../view/elsewhereTexts.ts'
import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { AppParts } from '../appDeps.ts'
import type { Bench } from '../bench/createBench.ts'
import type { DayBook } from '../day/dayBook.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import type { OtherDraw } from '../hub/clinic.ts'
import { createCountOthers } from './countOthers.ts'

/** What comes in at once is shown at once, and not entry by entry. */
const TOGETHER_ms = 60
/** While more is known to come, the lists wait for it: to read them anew takes the time in which it would come. */
const MANY_n = 300
/** So long at most. */
const LISTS_WAIT_ms = 30_000

export interface FollowClinicDeps {
  readonly parts: AppParts
  readonly book: Pick<DayBook, 'othersChanged'>
  readonly bench: Pick<Bench, 'othersChanged'>
  readonly running: Pick<RunningDraw, 'log' | 'loseTo'>
  /** What draws used is taken off the stock. */
  readonly countDown: (logs: readonly DrawLog[]) => Promise<void>
  /** The lists have what this device keeps of the others. */
  readonly onListed: () => void
}

/** Shows what the other devices of the clinic do, whenever something came; nothing here waits for the hub. */
export function followClinic(deps: FollowClinicDeps): void {
  const { parts, book, bench, running, countDown, onListed } = deps
  const { clinic, clock, get, set, site } = parts
  const counting = createCountOthers({ ...parts, countDown })
  let cancel: (() => void) | undefined
  let [seen, shown, listed] = ['', '', '']
  let [shown_ms, listed_ms] = [-Infinity, -Infinity]
  /** Draws of which it was told on their screen that something of them stands in no record. */
  const told = new Set<string>()

  /**
   * The draw that runs here, as another device goes on with it. Two devices may have given one number to two draws: the
   * screen never turns from one patient to another.
   */
  function takenOver(drawId: string): DrawLog | undefined {
    const here = running.log(drawId)
    const there = here && clinic.load(drawId)
    return there?.entries[0]?.hash === here?.entries[0]?.hash ? there : undefined
  }

  /** Two devices that were set to one prefix while neither could see the other: what each of them began last tells. */
  function samePrefix(others: readonly OtherDraw[]): { readonly samePrefix?: string } {
    const head = `${get().settings.devicePrefix}-`
    const lastOf = new Map<string, string>()
    for (const { drawId, begunBy } of others)
      if (begunBy !== undefined && !lastOf.has(begunBy)) lastOf.set(begunBy, drawId)
    const same = [...lastOf].find(([, drawId]) => drawId.startsWith(head))
    return defined({ samePrefix: same?.[0] })
  }

  /** A draw that runs here and that another device has taken over is only looked at from now on. */
  function letGo(others: readonly OtherDraw[]): void {
    const lost = [
      ...(clinic.view()?.aside ?? []).map(({ drawId, writer }) => ({
        drawId,
        device: writer || site.texts.clinic.somebody,
      })),
      ...others.map(({ drawId, deviceName: device }) => ({ drawId, device })),
    ]
    for (const { drawId, device } of lost) {
      const log = takenOver(drawId)
      if (!log) continue
      const elsewhere = elsewhereTexts(site.texts.clinic, 'lost', device)
      running.loseTo(log, () => clinic.load(drawId), elsewhere)
    }
  }

  /** A draw that ended here while another device had taken it over looks complete on the screen: that is told there. */
  function tellAside(): void {
    const { screen, draw } = get()
    // What is only looked on at says so already.
    const here = 'drawId' in screen && !draw?.elsewhere ? screen.drawId : undefined
    for (const { drawId, writer } of clinic.view()?.aside ?? []) {
      if (drawId !== here || running.log(drawId) || told.has(drawId)) continue
      told.add(drawId)
      const device = writer || site.texts.clinic.somebody
      set({ trouble: fillText(site.texts.clinic.elsewhere.closedBehind, { device }) })
    }
  }

  function show(): void {
    cancel = undefined
    shown_ms = clock.read().mono_ms
    const known = clinic.view()
    const others = clinic.draws()
    const all = known && { ...known, ...samePrefix(others) }
    // What is kept aside names patients.
    const view = all && get().lock.state === 'locked' ? { ...all, aside: [] } : all
    const now = JSON.stringify(view)
    if (now !== seen) set({ clinic: view })
    seen = now
    if (get().lock.state === 'locked') {
      // Nothing of it stands on the page any more.
      ;[shown, listed] = ['', '']
      return
    }
    letGo(others)
    tellAside()
    const draws = JSON.stringify(others)
    if (draws !== shown) showDraws(others)
    shown = draws
    if ((view?.coming_n ?? 0) > MANY_n && shown_ms - listed_ms < LISTS_WAIT_ms) return
    listed_ms = shown_ms
    const entries = clinic.dayEntries()
    const key = [draws, entries.length, entries.at(-1)?.hash].join()
    if (key !== listed) {
      counting.look(others)
      book.othersChanged()
      bench.othersChanged()
    }
    listed = key
    if (clinic.isRead()) onListed()
  }

  function showDraws(others: readonly OtherDraw[]): void {
    const ids = new Set(others.map(({ drawId }) => drawId))
    // What is no longer another device's may be a record of this one.
    if (get().others.some(({ drawId }) => !ids.has(drawId))) void parts.refreshDraws()
    set({ others, draws: get().draws.filter(({ drawId }) => !ids.has(drawId)) })
  }

  clinic.onChange(() => {
    // The first of several is shown without delay.
    const wait_ms = Math.max(0, shown_ms + TOGETHER_ms - clock.read().mono_ms)
    cancel ??= wakeIn(clock, wait_ms, show)
  })
}
