import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const read = (path: string): string =>
  readFileSync(new URL(`../../src/ui/${path}`, import.meta.url), 'utf8')

/** Color tokens of the light scheme, and of the dark one on top of it. */
function schemes(): Record<'light' | 'dark', Record<string, string>> {
  const [light = '', dark = ''] = read('styles/tokens.css').split('prefers-color-scheme: dark')
  const colors = (css: string): Record<string, string> =>
    Object.fromEntries([...css.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1]!, m[2]!]))
  return { light: colors(light), dark: { ...colors(light), ...colors(dark) } }
}

/** Relative luminance and contrast as defined in WCAG 2.2 (W3C Recommendation, definitions). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
function contrast(a: string, b: string): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y)
  return (high + 0.05) / (low + 0.05)
}

const TEXT_ON: readonly (readonly [string, string])[] = [
  ...['paper', 'panel', 'sunk', 'warn-tint', 'stop-tint'].map((ground) => ['ink', ground] as const),
  ...['paper', 'panel', 'sunk', 'warn-tint', 'stop-tint'].map(
    (ground) => ['soft', ground] as const,
  ),
  ...['paper', 'panel', 'stop-tint'].map((ground) => ['stop', ground] as const),
  ['go', 'paper'],
  ['go', 'panel'],
  ['warn', 'paper'],
  ['go-ink', 'go'],
  ['stop-ink', 'stop'],
  ['alarm-ink', 'alarm'],
  ['alarm', 'alarm-ink'],
]

describe.each(['light', 'dark'] as const)('the %s scheme', (name) => {
  const colors = schemes()[name]

  it.each(TEXT_ON)('has %s on %s at 4.5:1 or more (WCAG 2.2, 1.4.3)', (text, ground) => {
    expect(contrast(colors[text]!, colors[ground]!)).toBeGreaterThanOrEqual(4.5)
  })

  it.each([
    ['edge', 'paper'],
    ['edge', 'panel'],
    ['focus', 'paper'],
    ['focus', 'panel'],
  ])('has %s against %s at 3:1 or more (WCAG 2.2, 1.4.11)', (line, ground) => {
    expect(contrast(colors[line]!, colors[ground]!)).toBeGreaterThanOrEqual(3)
  })
})

describe('sizes on the draw screen', () => {
  const rule = (css: string, selector: string): string => {
    const from = `\n${css}`.indexOf(`\n${selector} {`)
    expect(from, selector).toBeGreaterThanOrEqual(0)
    return css.slice(from, css.indexOf('}', from))
  }

  it('gives every choice at least 96 px in both directions', () => {
    expect(read('styles/tokens.css')).toContain('--touch: 96px;')
    const choice = rule(read('draw/choices.css'), '.choice')
    expect(choice).toContain('min-block-size: var(--touch)')
    expect(choice).toContain('min-inline-size: var(--touch)')
  })

  it('shows the instruction at 84 px and the clock at 160 px or more on a tablet', () => {
    const css = read('draw/draw.css') + read('draw/clocks.css')
    expect(rule(css, '.draw')).toContain('--instruction: 84px')
    expect(rule(css, '.bigClock .time')).toMatch(/font-size: min\(16[0-9]px,/)
  })

  it('stops motion for those who ask for it', () => {
    expect(read('styles/base.css')).toContain('prefers-reduced-motion: reduce')
  })
})
