import { defined } from '../../core/basics/defined.ts'
import { drawMeasures } from '../../core/figures/drawMeasures.ts'
import type { FillCorrection } from '../../core/flow/fillCorrection.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { rulerStrip, type RulerStrip } from '../../core/record/rulerStrip.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Page } from '../../ports/page.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { createSiteKeeper } from '../site/ownSite.ts'
import type { DrawLogs } from '../draw/drawLogs.ts'
import type { LockView } from '../lock/lockView.ts'
import type { SiteData } from '../site/siteData.ts'
import type { ScorePracticeDraw } from './scorePracticeDraw.ts'
import type { FiguresView, PracticeResult, ReadDraw } from './figuresView.ts'

export interface FiguresActions {
  /** Reads the closed draws opened since then into `figures`; those of practice alone where that is asked for. */
  read(since_ms: number, onlyPractice?: boolean): Promise<void>
  /** Somebody accepts what was measured of a set for its predictions from now on; begins anew with it. */
  correctFill(correction: Omit<FillCorrection, 'at_ms'>): Promise<void>
  /** The uncorrected prediction is in use again; begins anew with it. */
  uncorrectFill(set: string): Promise<void>
  /** The draws of these ids as rulers; a broken or unread one is left out, and all while the records are locked. */
  strips(drawIds: readonly string[]): Promise<readonly RulerStrip[]>
}

type AppGuard = (what: string, work: () => Promise<void>) => Promise<unknown>

/** What reading needs of the app. */
interface FiguresParts {
  readonly logs: Pick<DrawLogs, 'load'>
  readonly site: Pick<SiteData, 'texts'>
  readonly get: () => {
    readonly draws: readonly StoredDraw[]
    readonly figures: FiguresView
    readonly lock: LockView
  }
  readonly settingsStore: SettingsStore
  readonly page: Pick<Page, 'startAnew'>
  readonly clock: Pick<Clock, 'read'>
  readonly guarded: AppGuard
  readonly scorePracticeDraw: ScorePracticeDraw
  readonly set: (change: { readonly figures: FiguresView }) => void
}

/** So many are read before the screen is told and the page may do something else. */
const PIECE_n = 20

/**
 * Reads the records that figures are made of, some at a time. A record is measured anew only where its last entry is
 * another than before; nothing is read while the records are locked, and nothing comes back onto a page that was
 * locked meanwhile.
 */
export function createFiguresActions(parts: FiguresParts): FiguresActions {
  const { get, set, logs, site } = parts
  const isLocked = (): boolean => get().lock.state === 'locked'
  let asked = 0

  async function readOne(drawId: string): Promise<readonly (readonly [string, ReadDraw])[]> {
    try {
      const log = await logs.load(drawId)
      if (!log) return []
      if (log.fault) return [[drawId, { kind: 'broken' }]]
      const hash = log.entries.at(-1)?.hash ?? ''
      const before = get().figures.read.get(drawId)
      if (before?.kind === 'measured' && before.hash === hash) return [[drawId, before]]
      const measures = drawMeasures(log, site.texts.record)
      const practice = resultOf(log)
      return [[drawId, defined({ kind: 'measured', hash, measures, practice })]]
    } catch {
      return [[drawId, { kind: 'unread' }]]
    }
  }

  function resultOf(log: DrawLog): PracticeResult | undefined {
    const scored = parts.scorePracticeDraw(log)
    return scored && { script: scored.script, points: scored.score.points, of: scored.score.of }
  }

  async function stripOfDraw(drawId: string): Promise<readonly RulerStrip[]> {
    try {
      const log = await logs.load(drawId)
      return log && !log.fault ? [rulerStrip(log)] : []
    } catch {
      return []
    }
  }

  const keeper = createSiteKeeper(parts.settingsStore, site.texts.site, () =>
    parts.page.startAnew(),
  )
  const change = async (to: (kept: readonly FillCorrection[]) => readonly FillCorrection[]) => {
    const { siteUnsaved } = site.texts.screens.told
    await parts.guarded(siteUnsaved, () => keeper.changeFillCorrections(to))
  }

  return {
    correctFill: (accepted) => {
      const correction = { ...accepted, at_ms: parts.clock.read().wall_ms }
      return change((kept) => [...kept.filter(({ set: of }) => of !== accepted.set), correction])
    },
    uncorrectFill: (of) => change((kept) => kept.filter((each) => each.set !== of)),
    strips: async (drawIds) => {
      if (isLocked()) return []
      const strips = await Promise.all(drawIds.map(stripOfDraw))
      return isLocked() ? [] : strips.flat()
    },
    read: async (since_ms, onlyPractice = false) => {
      const mine = ++asked
      const ids = get()
        .draws.filter(
          ({ closed, opened_ms, invented }) =>
            closed && opened_ms >= since_ms && (invented || !onlyPractice),
        )
        .map(({ drawId }) => drawId)
      const isOver = (): boolean => isLocked() || mine !== asked
      for (let done = 0; done < ids.length && !isOver(); done += PIECE_n) {
        set({ figures: { ...get().figures, reading: { done, of: ids.length } } })
        const piece = await Promise.all(ids.slice(done, done + PIECE_n).map(readOne))
        if (isOver()) break
        const all = new Map([...get().figures.read, ...piece.flat()])
        set({ figures: { ...get().figures, read: all } })
      }
      if (mine === asked) set({ figures: { ...get().figures, reading: undefined } })
    },
  }
}
