import { isScrolledAway } from './clips.ts'
import { colorOf, contrast, groundAt, opacityOf, over } from './colors.ts'
import { round1, type Finding } from './finding.ts'
import type { Ink } from './inks.ts'
import { controls, selectorOf, wordsOf } from './seen.ts'

/** Least contrast of text, of large text, and of an edge (WCAG 2.2, 1.4.3 and 1.4.11). */
const LEAST = { text: 4.5, large: 3, edge: 3 } as const
/** From here on text is large (WCAG 2.2, definitions: 18 pt, or 14 pt and bold), CSS px. */
const LARGE_px = 24
const LARGE_BOLD_px = 18.66

export interface ContrastFound {
  readonly findings: readonly Finding[]
  /** The least of all text in sight, a ratio. */
  readonly least: number
}

/** The contrast of all text against what is painted behind it. */
export function textContrast(texts: readonly Ink[]): ContrastFound {
  const seen = new Set<Element>()
  const findings: Finding[] = []
  let least = 21
  for (const ink of texts) {
    if (seen.has(ink.element)) continue
    seen.add(ink.element)
    const [x, y] = [(ink.left + ink.right) / 2, (ink.top + ink.bottom) / 2]
    if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) continue
    const ratio = contrast(...inkAndGround(ink.element, x, y))
    least = Math.min(least, ratio)
    if (ratio >= leastFor(ink.element) - 0.005) continue
    const figures = { ratio: round1(ratio), least: leastFor(ink.element) }
    const says = `"${ink.text.slice(0, 40)}" has ${ratio.toFixed(2)}:1`
    findings.push({ measure: 'contrast', selector: selectorOf(ink.element), says, figures })
  }
  return { findings, least }
}

function inkAndGround(element: Element, x: number, y: number) {
  const style = getComputedStyle(element)
  const ground = groundAt(x, y, element)
  const ink = colorOf(element instanceof SVGElement ? style.fill : style.color)
  return [over({ ...ink, alpha: ink.alpha * opacityOf(element) }, ground), ground] as const
}

function leastFor(element: Element): number {
  const { fontSize, fontWeight } = getComputedStyle(element)
  const [size, weight] = [parseFloat(fontSize), Number(fontWeight)]
  const isLarge = size >= LARGE_px || (size >= LARGE_BOLD_px && weight >= 700)
  return isLarge ? LEAST.large : LEAST.text
}

/** Controls whose border and ground are both hard to tell from what is around them. */
export function edgeContrast(): readonly Finding[] {
  return controls().flatMap((control) => {
    if (control.matches('a, input[type="radio"], input[type="checkbox"]')) return []
    const box = control.getBoundingClientRect()
    const { left, top, bottom, width, height } = box
    const y = (top + bottom) / 2
    const [outside, inside] = [left - 3, left + Math.min(width, height) * 0.2]
    // In the last row of pixels nothing is hit: what is there would count as white.
    if (outside < 0 || inside > innerWidth || y > innerHeight - 1) return []
    if (isScrolledAway(control, box)) return []
    if (isTextAlone(control)) return []
    const around = groundAt(outside, y)
    const own = groundAt(inside, y, control)
    const { borderLeftWidth, borderLeftStyle, borderLeftColor } = getComputedStyle(control)
    const hasBorder = borderLeftStyle !== 'none' && parseFloat(borderLeftWidth) >= 1
    const border = hasBorder ? over(colorOf(borderLeftColor), own) : own
    const ratio = Math.max(contrast(border, around), contrast(own, around))
    if (ratio >= LEAST.edge - 0.005) return []
    const says = `the edge of "${wordsOf(control)}" has ${ratio.toFixed(2)}:1`
    const figures = { ratio: round1(ratio), least: LEAST.edge }
    return [{ measure: 'edge', selector: selectorOf(control), says, figures }]
  })
}

/**
 * A control outside the draw that draws no box: its words, underlined or with a mark, are what is seen of it, and their
 * contrast is measured (WCAG 2.2, 1.4.11: no boundary is asked for where the text identifies the control).
 */
function isTextAlone(control: Element): boolean {
  if (control.closest('[data-screen="draw"], .draw')) return false
  const { backgroundColor, borderLeftWidth, borderLeftColor } = getComputedStyle(control)
  const hasBox = parseFloat(borderLeftWidth) >= 1 && colorOf(borderLeftColor).alpha > 0
  return !hasBox && colorOf(backgroundColor).alpha === 0
}
