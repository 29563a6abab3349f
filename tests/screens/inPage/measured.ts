import { controlFaults, leastTarget_px } from './controlFaults.ts'
import { edgeContrast, textContrast } from './contrastFaults.ts'
import { round1, type Box, type Finding } from './finding.ts'
import { capital_px, inks } from './inks.ts'
import { isSeen, withAllHit } from './seen.ts'
import { coveredText, cutText, inSight, overlaps, scrolledText } from './textFaults.ts'

/** What one screen comes to, apart from what only its pixels or other screens can tell. */
export interface Measured {
  readonly findings: readonly Finding[]
  /** Where the main choice stands. */
  readonly main: Box | undefined
  /** Height of a capital of the instruction and of a figure of the clock as painted, CSS px. */
  readonly instruction_px: number | undefined
  readonly clock_px: number | undefined
  readonly leastContrast: number
  readonly leastTarget_px: number | undefined
}

const INSTRUCTION = '[data-part="instruction"], .draw #step-instruction, .draw .severe .instruction'
const CLOCK = '[data-part="clock"], .draw .bigClock .time, .benchBoard .benchTotalN'
const MAIN = '[data-place="main"], .draw .answers > .choice.main'

/** Colors alone: in the second theme everything stands where it stood in the first. */
export type What = 'all' | 'colors'

/** Measures the page as it stands. Nothing on it is changed. */
export function measured(what: What = 'all'): Measured {
  const all = inks()
  const texts = inSight(all)
  const contrasts = withAllHit(() => textContrast(texts))
  if (what === 'colors') {
    const findings = [...withAllHit(edgeContrast), ...contrasts.findings]
    return { ...NOTHING, findings, leastContrast: round1(contrasts.least) }
  }
  const covered = withAllHit(() => coveredText(texts))
  // What is covered is not read over anything else.
  const open = texts.filter((ink) => !covered.some(({ ink: under }) => under === ink))
  return {
    findings: [
      ...controlFaults(),
      ...scrolledText(all),
      ...cutText(texts),
      ...overlaps(open),
      ...covered.map(({ finding }) => finding),
      ...withAllHit(edgeContrast),
      ...contrasts.findings,
      ...pageSize(),
    ],
    main: boxOf(first(MAIN)),
    instruction_px: capitalOf(INSTRUCTION, 'H'),
    clock_px: capitalOf(CLOCK, '0'),
    leastContrast: round1(contrasts.least),
    leastTarget_px: round1(leastTarget_px()),
  }
}

const NOTHING = {
  main: undefined,
  instruction_px: undefined,
  clock_px: undefined,
  leastTarget_px: undefined,
} as const

function pageSize(): readonly Finding[] {
  const { scrollHeight, scrollWidth } = document.documentElement
  const [high, broad] = [scrollHeight - innerHeight, scrollWidth - innerWidth]
  const page = { selector: 'html' } as const
  return [
    ...(high > 1 ? [{ ...page, measure: 'tall', says: `the page is ${high} px taller than the window`, figures: { px: high } } as const] : []),
    ...(broad > 1 ? [{ ...page, measure: 'wide', says: `the page is ${broad} px wider than the window`, figures: { px: broad } } as const] : []),
  ] // prettier-ignore
}

const first = (selector: string): Element | undefined =>
  [...document.querySelectorAll(selector)].find(isSeen)

function boxOf(element: Element | undefined): Box | undefined {
  if (!element) return undefined
  const { left, top, right, bottom } = element.getBoundingClientRect()
  return { left, top, right, bottom }
}

/** Of the largest text within. */
function capitalOf(selector: string, letter: 'H' | '0'): number | undefined {
  const element = first(selector)
  if (!element) return undefined
  const inner = [element, ...element.querySelectorAll('*')].filter(isSeen)
  const hasText = (each: Element): boolean =>
    [...each.childNodes].some(
      (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim(),
    )
  const heights = inner.filter(hasText).map((each) => capital_px(each, letter))
  return heights.length > 0 ? round1(Math.max(...heights)) : undefined
}
