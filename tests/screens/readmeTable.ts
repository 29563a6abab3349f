import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Measure } from './inPage/finding.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

const README = join(import.meta.dirname, '..', '..', 'README.md')
const BEGIN = '<!-- screens: written by `npm run screens:measure -- --readme` -->'
const END = '<!-- end of screens -->'

/** Columns that count screens on which one of these is wrong. */
const COUNTED: Readonly<Record<string, readonly Measure[]>> = {
  'a control covered or outside': ['covered', 'outside'],
  'text cut, covered or overlapping': ['cut', 'coveredText', 'overlap'],
  'text behind a scroll': ['scrolled'],
  'page larger than the window': ['tall', 'wide'],
  'main choice moved': ['mainMoved'],
  'contrast too low': ['contrast', 'edge'],
  'target under 96 px': ['target'],
  'over 35 % of rows empty': ['empty'],
}

/** One row a size: on how many screens something is wrong, and the least and the most of what is measured. */
export function screensTable(screens: readonly ScreenMeasured[]): string {
  const sizes = [...new Set(screens.map(({ size }) => size))]
  const head = ['size', 'screens', ...Object.keys(COUNTED), 'capital of the instruction', 'figure of the clock', 'least contrast'] // prettier-ignore
  const rows = sizes.map((size) => {
    const of = screens.filter((screen) => screen.size === size)
    const counts = Object.values(COUNTED).map((measures) => {
      const n = of.filter(({ findings }) =>
        findings.some(({ measure }) => measures.includes(measure)),
      )
      return String(n.length)
    })
    return [
      size,
      String(of.length),
      ...counts,
      span(of.map((screen) => screen.instruction_px)),
      span(of.map((screen) => screen.clock_px)),
      `${Math.min(...of.map((screen) => screen.leastContrast)).toFixed(1)}:1`,
    ]
  })
  return [head, head.map(() => '---'), ...rows]
    .map((cells) => `| ${cells.join(' | ')} |`)
    .join('\n')
}

function span(values: readonly (number | undefined)[]): string {
  const known = values.filter((value) => value !== undefined).map(Math.round)
  const [least, most] = [Math.min(...known), Math.max(...known)]
  return least === most ? `${least} px` : `${least} to ${most} px`
}

/** Puts the table in its place in the README. */
export function writeIntoReadme(table: string): void {
  const text = readFileSync(README, 'utf8')
  const begin = text.indexOf(BEGIN)
  const end = text.indexOf(END)
  if (begin < 0 || end < begin) throw new Error('The README has no place for the screens.')
  writeFileSync(README, `${text.slice(0, begin + BEGIN.length)}\n\n${table}\n\n${text.slice(end)}`)
}
