import type { Box } from './finding.ts'

export interface Clip extends Box {
  readonly element: Element
  /** What is beyond can be brought into sight by scrolling. */
  readonly scrolls: boolean
}

/** What cuts an element off: the boxes of its ancestors that let nothing out, nearest first. */
export function clipsOf(element: Element): readonly Clip[] {
  const clips: Clip[] = []
  for (let at: Element | null = element; at && at !== document.body; at = at.parentElement) {
    const { overflowX, overflowY, position, display } = getComputedStyle(at)
    // What has no box cuts nothing off.
    if (display === 'contents') continue
    if (overflowX !== 'visible' || overflowY !== 'visible') {
      const box = at.getBoundingClientRect()
      const [left, top] = [box.left + at.clientLeft, box.top + at.clientTop]
      const scrolls = [overflowX, overflowY].some((how) => how === 'auto' || how === 'scroll')
      // A drawing has no client size; its box is what it shows.
      const { clientWidth, clientHeight } = at
      const [width, height] =
        at instanceof HTMLElement ? [clientWidth, clientHeight] : [box.width, box.height]
      clips.push({ element: at, scrolls, left, top, right: left + width, bottom: top + height })
    }
    if (position === 'fixed') break
  }
  return clips
}

/** How far a box reaches out of another, CSS px. */
export const beyond_px = (inner: Box, outer: Box): number =>
  Math.max(
    outer.left - inner.left,
    outer.top - inner.top,
    inner.right - outer.right,
    inner.bottom - outer.bottom,
    0,
  )

/** Whether a box lies, wholly or in part, where only scrolling within the page brings it into sight. */
export const isScrolledAway = (element: Element, box: Box): boolean =>
  clipsOf(element).some(
    (clip) => clip.scrolls && clip.element !== element && beyond_px(box, clip) > 1,
  )

/** Narrower than this is a phone, whose page may be longer than its window. */
const PHONE_px = 700

/** Whether the page goes on below its window, as on a phone it may; that it does is a finding by itself. */
export const goesOn = (): boolean =>
  innerWidth < PHONE_px && document.documentElement.scrollHeight > innerHeight + 1

/**
 * Whether a row that stays at the edge of a sheet, or of a page longer than its window, lies over what moves below it:
 * a list moves out from under it.
 */
export function isSheetEdge(over: Element, under: Element): boolean {
  const dialog = under.closest('[role="dialog"]')
  const sheet = dialog ?? document.documentElement
  if (dialog ? dialog.scrollHeight <= dialog.clientHeight : !goesOn()) return false
  for (let at: Element | null = over; at && at !== sheet; at = at.parentElement) {
    if (getComputedStyle(at).position === 'sticky') return sheet.contains(at) && !at.contains(under)
  }
  return false
}
