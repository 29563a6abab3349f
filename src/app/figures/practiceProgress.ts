import type { FigureTexts } from '../site/figureTexts.ts'
import { csvText } from './figuresCsv.ts'
import type { FiguresView } from './figuresView.ts'

/** One rehearsal that was closed and is kept here. */
export interface Rehearsal {
  readonly script: string
  /** Local day. */
  readonly day: string
  readonly at_ms: number
  /** Initials of whoever drew. */
  readonly who: string
  readonly points: number
  readonly of: number
}

/** The rehearsals among what was read, oldest first. */
export function rehearsalsOf({ read }: FiguresView): readonly Rehearsal[] {
  return [...read.values()]
    .flatMap((each): Rehearsal[] => {
      if (each.kind !== 'measured' || !each.practice || !each.measures.practice) return []
      const { day, opened_ms: at_ms, people } = each.measures
      return [
        { ...each.practice, day, at_ms, who: people.map(({ initials }) => initials).join(' ') },
      ]
    })
    .sort((a, b) => a.at_ms - b.at_ms)
}

/** A table of them; every row says that it is practice. Cells that a spreadsheet would run are defused. */
export function rehearsalsCsv(
  rehearsals: readonly Rehearsal[],
  { columns, mark }: FigureTexts['progress'],
): string {
  const { script, day, who, points, of } = columns
  return csvText(
    [columns.mark, script, day, who, points, of],
    rehearsals.map((each) => [mark, each.script, each.day, each.who, each.points, each.of]),
  )
}

/** The same for a machine. It bears no format of a record and no chain, so that nothing takes it for one. */
export function rehearsalsJson(
  rehearsals: readonly Rehearsal[],
  { mark }: Pick<FigureTexts['progress'], 'mark'>,
): string {
  const rows = rehearsals.map(({ at_ms: _at, ...each }) => each)
  return `${JSON.stringify({ [mark]: true, rehearsals: rows }, null, 2)}\n`
}
