import { goesOn, isScrolledAway, isSheetEdge } from './clips.ts'
import { round1, type Finding } from './finding.ts'
import { controls, selectorOf, wordsOf } from './seen.ts'

/** Smallest side of anything to touch while drawing, CSS px. Our own limit, for gloves and haste. */
const TOUCH_px = 96
/** From the edge to where a corner is tried, so that round corners do not count. */
const INSET_px = 10

/** Controls that something lies over at their middle or a corner, that reach out of the window, or that are small. */
export function controlFaults(): readonly Finding[] {
  return controls().flatMap((control) => [...coveredAt(control), ...smallness(control)])
}

function coveredAt(control: Element): readonly Finding[] {
  const box = control.getBoundingClientRect()
  if (isScrolledAway(control, box)) return []
  const [dx, dy] = [Math.min(INSET_px, box.width / 4), Math.min(INSET_px, box.height / 4)]
  const points = [
    ['middle', (box.left + box.right) / 2, (box.top + box.bottom) / 2],
    ['top left', box.left + dx, box.top + dy],
    ['top right', box.right - dx, box.top + dy],
    ['bottom left', box.left + dx, box.bottom - dy],
    ['bottom right', box.right - dx, box.bottom - dy],
  ] as const
  const over = {
    left: round1(-box.left),
    top: round1(-box.top),
    right: round1(box.right - innerWidth),
    bottom: round1(box.bottom - innerHeight),
  }
  const about = { selector: selectorOf(control) }
  // Below the end of the window, but not of a page that is found to be longer.
  const isBelow = goesOn() && box.bottom <= document.documentElement.scrollHeight + 0.5
  const out = Object.entries(over).filter(
    ([side, px]) => px > 0.5 && !(side === 'bottom' && isBelow),
  )
  if (out.length > 0) {
    const says = `"${wordsOf(control)}" is outside: ${out.map(([side, px]) => `${side} ${px} px`).join(', ')}`
    return [{ ...about, measure: 'outside', says, figures: Object.fromEntries(out) }]
  }
  for (const [where, x, y] of points) {
    if (y > innerHeight) continue
    const hit = document.elementFromPoint(x, y)
    if (!hit || control.contains(hit) || hit.closest('label')?.contains(control)) continue
    if (isSheetEdge(hit, control)) return []
    const says = `"${wordsOf(control)}" is covered at its ${where} by ${selectorOf(hit)}`
    return [{ ...about, measure: 'covered', says, figures: { x: round1(x), y: round1(y) } }]
  }
  return []
}

function smallness(control: Element): readonly Finding[] {
  if (!control.closest('[data-screen="draw"], .draw')) return []
  // A box that belongs to a label is touched anywhere on the label.
  const { width, height } = (control.closest('label') ?? control).getBoundingClientRect()
  if (Math.min(width, height) >= TOUCH_px - 0.5) return []
  const figures = { width: round1(width), height: round1(height) }
  const says = `"${wordsOf(control)}" is ${figures.width} x ${figures.height} px`
  return [{ measure: 'target', selector: selectorOf(control), says, figures }]
}

/** Smallest side of anything to touch, CSS px; `Infinity` where there is nothing. */
export const leastTarget_px = (): number =>
  Math.min(
    ...controls().map((control) => {
      const { width, height } = (control.closest('label') ?? control).getBoundingClientRect()
      return Math.min(width, height)
    }),
  )
