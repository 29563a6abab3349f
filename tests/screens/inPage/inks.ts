import type { Box } from './finding.ts'
import { isSeen } from './seen.ts'

/** Where the letters of a line of text are painted. */
export interface Ink extends Box {
  readonly element: Element
  readonly text: string
}

const canvas = document.createElement('canvas').getContext('2d')
const known = new Map<string, TextMetrics>()

/** The measures of a text in an element's font, by the font itself. */
function metricsOf(element: Element, text: string): TextMetrics {
  const { fontStyle, fontWeight, fontSize, fontFamily, textTransform } = getComputedStyle(element)
  const font = `${fontStyle} ${fontWeight} ${fontSize} ${fontFamily}`
  const shown = textTransform === 'uppercase' ? text.toUpperCase() : text
  const key = `${font}|${shown}`
  const before = known.get(key)
  if (before) return before
  if (!canvas) throw new Error('This browser measures no text.')
  canvas.font = font
  const metrics = canvas.measureText(shown)
  known.set(key, metrics)
  return metrics
}

/** The lines of all text in sight, each as high as its letters and not as its line. */
export function inks(): readonly Ink[] {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  const found: Ink[] = []
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement
    const text = node.textContent?.trim() ?? ''
    if (!element || text === '' || !isText(element)) continue
    const range = document.createRange()
    range.selectNodeContents(node)
    const m = metricsOf(element, text)
    const line = m.fontBoundingBoxAscent + m.fontBoundingBoxDescent
    for (const { left, right, top, height, width } of range.getClientRects()) {
      if (width < 1 || height < 1) continue
      // Text of a drawing is scaled with it.
      const scale = height / line
      const base = top + m.fontBoundingBoxAscent * scale
      const bottom = base + m.actualBoundingBoxDescent * scale
      found.push({
        element,
        text,
        left,
        right,
        top: base - m.actualBoundingBoxAscent * scale,
        bottom,
      })
    }
  }
  return found
}

const isText = (element: Element): boolean =>
  !['SCRIPT', 'STYLE', 'TITLE', 'OPTION'].includes(element.tagName.toUpperCase()) && isSeen(element)

/** Height of a capital (or, of a clock, of a figure) as it is painted, CSS px. */
export function capital_px(element: Element, letter: 'H' | '0'): number {
  const { actualBoundingBoxAscent, actualBoundingBoxDescent } = metricsOf(element, letter)
  return actualBoundingBoxAscent + Math.max(0, actualBoundingBoxDescent)
}
