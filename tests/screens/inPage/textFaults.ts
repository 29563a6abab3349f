import { beyond_px, clipsOf, isSheetEdge } from './clips.ts'
import { colorsAt } from './colors.ts'
import { round1, type Box, type Finding } from './finding.ts'
import type { Ink } from './inks.ts'
import { selectorOf } from './seen.ts'

/** Smaller than this is the rounding of the painter, CSS px. */
const SLACK_px = 1

const shown = (text: string): string => `"${text.slice(0, 40)}"`

/** Text in sight: what waits behind a scroll is not. */
export function inSight(all: readonly Ink[]): readonly Ink[] {
  return all.filter(
    (ink) => !clipsOf(ink.element).some((clip) => clip.scrolls && beyond_px(ink, clip) > SLACK_px),
  )
}

/** Parts of the draw screen that hide some of their text until they are scrolled; a sheet is a list and may. */
export function scrolledText(all: readonly Ink[]): readonly Finding[] {
  const hidden = new Map<Element, Ink[]>()
  for (const ink of all) {
    if (ink.element.closest('[role="dialog"]')) continue
    const clip = clipsOf(ink.element).find(
      (each) => each.scrolls && beyond_px(ink, each) > SLACK_px,
    )
    if (clip) hidden.set(clip.element, [...(hidden.get(clip.element) ?? []), ink])
  }
  return [...hidden].map(([element, texts]) => {
    const n = texts.length
    // What to do now is never to be scrolled for.
    const lost = texts.find((ink) => ink.element.closest('[data-part="instruction"]'))
    if (lost) {
      const says = `${shown(lost.text)} is cut off by ${selectorOf(element)}`
      return { measure: 'cut', selector: '[data-part="instruction"]', says, figures: { n } }
    }
    const says = `${n} texts wait behind a scroll, the first ${shown(texts[0]?.text ?? '')}`
    return { measure: 'scrolled', selector: selectorOf(element), says, figures: { n } }
  })
}

/** Text that is cut off by a box, by its control or by the window. */
export function cutText(texts: readonly Ink[]): readonly Finding[] {
  const page: Box = { left: 0, right: innerWidth, top: -Infinity, bottom: Infinity }
  return texts.flatMap((ink) => {
    const control = ink.element.closest('button, a[href]')
    const bounds = [
      ...clipsOf(ink.element).filter(({ scrolls }) => !scrolls),
      ...(control ? [{ ...boxOf(control), element: control }] : []),
      { ...page, element: document.body },
    ]
    const cut = bounds.find((bound) => beyond_px(ink, bound) > SLACK_px)
    if (cut) {
      const over = round1(beyond_px(ink, cut))
      const says = `${shown(ink.text)} runs ${over} px over ${selectorOf(cut.element)}`
      return [{ measure: 'cut', selector: selectorOf(ink.element), says, figures: { over } }]
    }
    const { element } = ink
    const isShortened =
      getComputedStyle(element).textOverflow === 'ellipsis' &&
      element.scrollWidth > element.clientWidth + SLACK_px
    if (!isShortened) return []
    const over = element.scrollWidth - element.clientWidth
    return [{ measure: 'cut', selector: selectorOf(element), says: `${shown(ink.text)} is shortened by ${over} px`, figures: { over } }] // prettier-ignore
  })
}

const boxOf = (element: Element): Box => {
  const { left, top, right, bottom } = element.getBoundingClientRect()
  return { left, top, right, bottom }
}

/** Letters of different elements that are painted over each other. */
export function overlaps(texts: readonly Ink[]): readonly Finding[] {
  return texts.flatMap((a, i) =>
    texts.slice(i + 1).flatMap((b) => {
      if (a.element === b.element) return []
      if (isSheetEdge(a.element, b.element) || isSheetEdge(b.element, a.element)) return []
      const x = Math.min(a.right, b.right) - Math.max(a.left, b.left)
      const y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
      if (x <= SLACK_px || y <= SLACK_px) return []
      const figures = { x: round1(x), y: round1(y) }
      const says = `${shown(a.text)} and ${shown(b.text)} overlap by ${figures.x} x ${figures.y} px`
      const selector = `${selectorOf(a.element)} + ${selectorOf(b.element)}`
      return [{ measure: 'overlap' as const, selector, says, figures }]
    }),
  )
}

/** Text that something opaque is painted over. */
export function coveredText(
  texts: readonly Ink[],
): readonly { readonly ink: Ink; readonly finding: Finding }[] {
  return texts.flatMap((ink) => {
    const y = (ink.top + ink.bottom) / 2
    for (const part of [0.1, 0.5, 0.9]) {
      const x = ink.left + (ink.right - ink.left) * part
      const over = coverAt(ink.element, x, y)
      if (!over) continue
      const says = `${shown(ink.text)} lies under ${selectorOf(over)}`
      const figures = { x: round1(x), y: round1(y) }
      const finding = {
        measure: 'coveredText',
        selector: selectorOf(ink.element),
        says,
        figures,
      } as const
      return [{ ink, finding }]
    }
    return []
  })
}

function coverAt(element: Element, x: number, y: number): Element | undefined {
  // The topmost alone is found much faster than all of them.
  const top = document.elementFromPoint(x, y)
  if (!top || top.contains(element) || element.contains(top)) return undefined
  if (isSheetEdge(top, element)) return undefined
  for (const hit of document.elementsFromPoint(x, y)) {
    if (hit.contains(element) || element.contains(hit)) return undefined
    if (colorsAt(hit).some(({ alpha }) => alpha > 0.3)) return hit
  }
  return undefined
}
