import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const UI = 'src/ui'
const sources = readdirSync(UI, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.tsx'))
  .map((file) => ({ file, text: readFileSync(join(UI, file), 'utf8') }))

const having = (pattern: RegExp, allowed: RegExp): readonly string[] =>
  sources
    .filter(({ file, text }) => !allowed.test(file) && pattern.test(text))
    .map(({ file }) => file)

describe('a screen', () => {
  it('outside the draw stands in the common frame', () => {
    const screens = sources.filter(({ file }) => /Screen\.tsx$/.test(file))
    const without = screens.filter(({ text }) => !/<(Frame|ScreenHeader)\b/.test(text))
    expect(screens.length).toBeGreaterThanOrEqual(13)
    expect(without.map(({ file }) => file)).toEqual(['draw/DrawScreen.tsx'])
  })

  it('has its first heading from the common head alone', () => {
    expect(having(/<h1\b/, /^(draw\/|shared\/ScreenHeader\.tsx$)/)).toEqual([])
  })

  it('shows the mark in the common head alone', () => {
    expect(having(/<Mark\b/, /^shared\/ScreenHeader\.tsx$/)).toEqual([])
  })

  it('listens for Escape as its way back in one place alone', () => {
    const listening = having(/key(?:=|:| ===) *['"]Escape|useBackKey\(/, /^(draw|shared)\//)
    // The list of tests closes itself.
    expect(listening).toEqual(['order/TestPicker.tsx'])
  })
})

describe('a control', () => {
  it.each([
    ['radio', /type="radio"/],
    ['box to tick', /type="checkbox"/],
    ['file', /type="file"/],
    ['slider', /type="range"/],
    ['list', /<select\b/],
    ['meter', /<(meter|progress)\b/],
    ['day or time of the browser', /type="(date|time|datetime-local|month|color)"/],
  ])('%s is the shared one, in our own look', (_what, pattern) => {
    expect(having(pattern, /^shared\//)).toEqual([])
  })

  it('keeps what the device draws where a person has colors of their own', () => {
    const css = readFileSync(join(UI, 'shared/controls.css'), 'utf8')
    const [own = '', forced = ''] = css.split('@media (forced-colors: active)')
    expect(own).not.toContain('accent-color')
    expect(forced).toMatch(/\.tick input,[^}]*appearance: auto/s)
  })
})

describe('a day or a time for a person', () => {
  it('is written by core/time alone', () => {
    const found = having(/DateTimeFormat|toLocale(Date|Time)?String|toISOString/, /^$/)
    expect(found).toEqual([])
  })
})
