import type { Language } from '../../core/basics/language.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { DrawSitting } from '../../core/order/sitting.ts'
import { mayOpen } from '../../core/plan/decisions.ts'
import { planAfter } from '../../core/plan/planSittings.ts'
import { bloodTaken } from '../../core/protocol/bloodTaken.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { factsOf } from '../../core/record/factsOf.ts'
import type { Series, SeriesSitting } from '../../core/record/seriesRecord.ts'
import { nextSitting, refusalOf } from '../../core/record/nextSitting.ts'
import type { ResumedSitting } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { needleSetOf } from '../../core/protocol/facts.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import { filledDraft } from '../order/filledDraft.ts'
import { planInput } from '../order/planInput.ts'
import { readDraft } from '../order/readDraft.ts'
import type { SeriesBook } from './seriesBook.ts'

/** From a sitting that is to be drawn to the opening of its draw. */
export interface SittingDraws {
  /**
   * Fills in form and plan from the draw with which the series began.
   * @returns whether the draw may open at once; else something is to be decided first, and the plan is shown
   */
  prepare(sitting: ResumedSitting): Promise<boolean>
  /** One sitting, one draw: opens it unless another page or an earlier press did. */
  begin(
    sitting: ResumedSitting,
    open: (as: DrawSitting | undefined) => Promise<void>,
  ): Promise<void>
}

export function createSittingDraws(
  parts: AppParts,
  running: RunningDraw,
  book: SeriesBook,
): SittingDraws {
  const { get, set, site, logs, logStore, drawLock, clock } = parts
  const { series: texts } = site.texts.screens

  interface Found {
    readonly series: Series
    readonly sitting: SeriesSitting
  }

  async function find({ series: id, key }: ResumedSitting): Promise<Found | undefined> {
    await parts.refreshDraws()
    const series = await book.read(id, get().draws)
    const sitting = series?.sittings.find((each) => each.key === key)
    if (series && sitting) return { series, sitting }
    set({ trouble: texts.notRead })
    return undefined
  }

  /** Tells why a sitting is not drawn anew. */
  function refused({ series, sitting }: Found): boolean {
    const { part } = sitting
    const why = refusalOf(series, sitting)
    if (why === undefined) return false
    set({
      trouble: fillText(texts.refused[why], { point: part.point }),
      screen: { name: 'home' },
      plan: undefined,
      sittings: [],
      resumed: undefined,
    })
    return true
  }

  async function prepare(as: ResumedSitting): Promise<boolean> {
    const found = await find(as)
    if (!found || refused(found)) return false
    const { series, sitting } = found
    const own = get().draws.filter((draw) => draw.series === series.id)
    const read = await Promise.all(
      own.map(({ drawId }) => logs.load(drawId).catch(() => undefined)),
    )
    const taken = read.flatMap((log) => log ?? [])
    const first = taken.find(({ drawId }) => drawId === series.id)
    if (!first) {
      set({ trouble: texts.notRead })
      return false
    }
    const { opened } = series
    const states = taken.map(({ entries }) => replay(entries))
    const before_mL = states.reduce((sum, state) => sum + bloodTaken(state).most_mL, 0)
    // Hours since food are those of the first sitting; what was answered at the chair holds for all.
    const { fasted_h: _fasted, ...preparation } = factsOf(first).answers
    const tests = sitting.part.tests
    const filled = filledDraft(
      {
        ...opened,
        order: { ...opened.order, tests },
        preparation: sitting.part.number === 1 ? factsOf(first).answers : preparation,
        needleSet: needleSetOf(replay(first.entries)),
      },
      opened.invented,
    )
    const draft = { ...filled, patientLanguage: languageSaidLast(states) ?? filled.patientLanguage }
    const reading = readDraft(draft, parts.today(), site.texts, site.catalogue)
    if (!reading.ok) {
      set({ draft, draftErrors: reading.faults, screen: { name: 'order' } })
      return false
    }
    const input = planInput(reading.value, draft, site, parts.today(), parts.stock.current())
    const plan = planAfter(input, before_mL)
    const approvals = opened.approvals ?? []
    set({
      draft,
      draftErrors: [],
      plan,
      sittings: [{ tests, parts: [sitting.part], plan }],
      resumed: as,
      approvals,
    })
    if (mayOpen(plan, approvals)) return true
    set({ screen: { name: 'plan' } })
    return false
  }

  /** Where nothing can be written there is no other page's draw to be found either: the lock alone must do. */
  const claimed = ({ series, key }: ResumedSitting): Promise<boolean> =>
    logStore.claim(`${series} ${key}`, clock.read().wall_ms).catch(() => true)

  async function begin(
    as: ResumedSitting,
    open: (sitting: DrawSitting) => Promise<void>,
  ): Promise<void> {
    const held = await drawLock.hold(`sitting ${as.series} ${as.key}`, () => undefined)
    if (!held) {
      set({ trouble: texts.refused.elsewhere })
      return
    }
    try {
      if (!(await claimed(as))) {
        set({ trouble: texts.refused.elsewhere })
        return
      }
      const found = await find(as)
      if (!found || refused(found)) return
      const { series, sitting } = found
      await open(nextSitting(series, sitting))
      const step_ms = get().seriesClockStep_ms
      if (step_ms !== 0) {
        const text = fillText(texts.clockNote, { minutes: Math.round(step_ms / 60_000) })
        await running.dispatch({ type: 'addNote', text }, 'app')
      }
    } finally {
      held.release()
    }
  }

  return { prepare, begin }
}

/** In which language the patient was spoken to in the latest of these draws. */
function languageSaidLast(states: readonly DrawState[]): Language | undefined {
  return [...states]
    .sort((a, b) => a.openedAt.at_ms - b.openedAt.at_ms)
    .findLast(({ patientLanguage }) => patientLanguage !== undefined)?.patientLanguage
}
