import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { keptElsewhere } from '../../scripts/build/keptAt.ts'

const folder = mkdtempSync(join(tmpdir(), 'stillhand-kept-'))
afterAll(() => rmSync(folder, { recursive: true }))

const FIRST = 'http://localhost:4173/'
const SECOND = 'http://localhost:8080/'

test('records are kept where the app was served first, until it is moved on purpose', () => {
  const file = join(folder, 'a')
  expect(keptElsewhere(file, FIRST, false)).toBeUndefined()
  expect(keptElsewhere(file, FIRST, false)).toBeUndefined()
  expect(keptElsewhere(file, SECOND, false)).toBe(FIRST)
  // Having been served elsewhere once moves nothing.
  expect(keptElsewhere(file, SECOND, false)).toBe(FIRST)
  expect(keptElsewhere(file, SECOND, true)).toBeUndefined()
  expect(keptElsewhere(file, FIRST, false)).toBe(SECOND)
})

test.each(['', 'javascript:alert(1)', 'http://localhost:4173/x y', '{', '\u0000'])(
  'a file that holds no address counts as none: %j',
  (text) => {
    const file = join(folder, 'b')
    writeFileSync(file, text)
    expect(keptElsewhere(file, FIRST, false)).toBeUndefined()
    expect(readFileSync(file, 'utf8').trim()).toBe(FIRST)
  },
)

test('a folder that cannot be written stops nothing', () => {
  const file = join(folder, 'missing', 'c')
  expect(keptElsewhere(file, FIRST, false)).toBeUndefined()
  expect(existsSync(file)).toBe(false)
})
