import { figuresOf, type Figures } from '../../core/figures/figuresOf.ts'
import type { Span } from '../../core/figures/stretches.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { FiguresView } from './figuresView.ts'

/** Figures, and what is not in them. */
export interface ShownFigures extends Figures {
  /** Ids of draws whose record is broken, and of those that could not be read. */
  readonly broken: readonly string[]
  readonly unread: readonly string[]
  /** Draws that are not closed. */
  readonly open: number
  /** Records that were read on this page and are no longer here. */
  readonly erased: number
}

/**
 * The figures of the records that are still here.
 * @param now local day, `2026-11-25`
 */
export function shownFigures(
  { read }: FiguresView,
  draws: readonly StoredDraw[],
  as: { readonly span: Span; readonly today: string; readonly isPractice: boolean },
): ShownFigures {
  const ids = new Set(draws.map(({ drawId }) => drawId))
  const own = draws.filter(({ invented }) => invented === as.isPractice)
  const ofKind = (kind: 'broken' | 'unread'): readonly string[] =>
    own.map(({ drawId }) => drawId).filter((id) => read.get(id)?.kind === kind)
  const measures = [...read].flatMap(([id, each]) =>
    each.kind === 'measured' && ids.has(id) ? [each.measures] : [],
  )
  return {
    ...figuresOf(measures, as.span, as.today, as.isPractice),
    broken: ofKind('broken'),
    unread: ofKind('unread'),
    open: own.filter(({ closed }) => !closed).length,
    erased: [...read.keys()].filter((id) => !ids.has(id)).length,
  }
}
