export interface Color {
  readonly red: number
  readonly green: number
  readonly blue: number
  /** 0 to 1. */
  readonly alpha: number
}

const WHITE: Color = { red: 255, green: 255, blue: 255, alpha: 1 }
const canvas = document.createElement('canvas')
canvas.width = canvas.height = 1
const paint = canvas.getContext('2d', { willReadFrequently: true })
const known = new Map<string, Color>()

/** Any color of a style sheet as the browser paints it. */
export function colorOf(text: string): Color {
  const before = known.get(text)
  if (before) return before
  if (!paint) throw new Error('This browser paints no colors.')
  paint.clearRect(0, 0, 1, 1)
  paint.fillStyle = 'transparent'
  paint.fillStyle = text
  paint.fillRect(0, 0, 1, 1)
  const [red = 0, green = 0, blue = 0, alpha = 0] = paint.getImageData(0, 0, 1, 1).data
  const color = { red, green, blue, alpha: alpha / 255 }
  known.set(text, color)
  return color
}

export function over(top: Color, below: Color): Color {
  const mix = (a: number, b: number): number => a * top.alpha + b * (1 - top.alpha)
  const { red, green, blue } = below
  return {
    red: mix(top.red, red),
    green: mix(top.green, green),
    blue: mix(top.blue, blue),
    alpha: 1,
  }
}

/** What an element paints of its own, behind its text: its ground, or the filling of a drawn shape. */
export function colorsAt(element: Element): readonly Color[] {
  const style = getComputedStyle(element)
  const isShape = element instanceof SVGGeometryElement
  const color = colorOf(isShape ? style.fill : style.backgroundColor)
  const alpha = color.alpha * opacityOf(element) * (isShape ? Number(style.fillOpacity) : 1)
  return alpha > 0 ? [{ ...color, alpha }] : []
}

/** How solid an element is painted, with everything around it. */
export function opacityOf(element: Element): number {
  let opacity = 1
  for (let at: Element | null = element; at; at = at.parentElement) {
    opacity *= Number(getComputedStyle(at).opacity)
  }
  return opacity
}

/** The ground at a point as it is painted, from an element down; without one from the topmost. */
export function groundAt(x: number, y: number, from?: Element): Color {
  const hits = document.elementsFromPoint(x, y)
  const first = from ? hits.findIndex((hit) => hit === from || hit.contains(from)) : 0
  const layers: Color[] = []
  for (const hit of hits.slice(Math.max(0, first))) {
    layers.push(...colorsAt(hit))
    if (layers.at(-1)?.alpha === 1) break
  }
  return layers.reduceRight((below, layer) => over(layer, below), WHITE)
}

/** Relative luminance and contrast as defined in WCAG 2.2 (W3C Recommendation, definitions). */
export function contrast(a: Color, b: Color): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y)
  return (high + 0.05) / (low + 0.05)
}

function luminance({ red, green, blue }: Color): number {
  const [r = 0, g = 0, b = 0] = [red, green, blue].map((value) => {
    const c = value / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
