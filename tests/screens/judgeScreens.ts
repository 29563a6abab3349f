import type { Box, Finding, Measure } from './inPage/finding.ts'
import type { Size } from './looks.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

/** Capital of the instruction where it is read from two metres: 1/200 of the distance at 132 CSS px an inch. */
const INSTRUCTION_px = 52
/** Most rows of a screen with nothing in them. */
const EMPTY_SHARE = 0.35
/** So far the main choice may stand from its one place, CSS px. */
const MAIN_px = 2

/** The screens of one size, with what is wrong only beside others or by their pixels. */
export function judgeScreens(
  screens: readonly ScreenMeasured[],
  size: Pick<Size, 'stands'>,
): readonly ScreenMeasured[] {
  const place = usualPlace(screens)
  return screens.map((screen) => judged(screen, size, place))
}

function judged(
  screen: ScreenMeasured,
  size: Pick<Size, 'stands'>,
  place: Box | undefined,
): ScreenMeasured {
  const more: Finding[] = []
  const found = (
    measure: Measure,
    selector: string,
    says: string,
    figures: Finding['figures'],
  ): void => void more.push({ measure, selector, says, figures })
  const { main, instruction_px, emptyShare: share } = screen
  const off = main && place ? offset_px(main, place) : 0
  if (off > MAIN_px) {
    const says = `stands ${Math.round(off)} px from its place: ${told(main)} and not ${told(place)}`
    found('mainMoved', '[data-place="main"]', says, { off })
  }
  if (size.stands && instruction_px !== undefined && instruction_px < INSTRUCTION_px) {
    const says = `has capitals of ${instruction_px} px`
    found('smallInstruction', '[data-part="instruction"]', says, { px: instruction_px })
  }
  if (share !== undefined && share >= EMPTY_SHARE) {
    found('empty', 'html', `${Math.round(share * 100)} % of the rows are empty`, { share })
  }
  return { ...screen, findings: [...screen.findings, ...more] }
}

function told(box: Box | undefined): string {
  if (!box) return ''
  const [left, top, right, bottom] = [box.left, box.top, box.right, box.bottom].map(Math.round)
  return `${left},${top} to ${right},${bottom}`
}

const offset_px = (a: Box, b: Box): number =>
  Math.max(
    Math.abs(a.left - b.left),
    Math.abs(a.top - b.top),
    Math.abs(a.right - b.right),
    Math.abs(a.bottom - b.bottom),
  )

/** Where most screens have their main choice. */
function usualPlace(screens: readonly ScreenMeasured[]): Box | undefined {
  const counts = new Map<string, { n: number; box: Box }>()
  for (const { main } of screens) {
    if (!main) continue
    const known = counts.get(told(main))
    if (known) known.n += 1
    else counts.set(told(main), { n: 1, box: main })
  }
  return [...counts.values()].sort((a, b) => b.n - a.n)[0]?.box
}
