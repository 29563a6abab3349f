import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { sha256 } from '../../src/adapters/crypto/sha256.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import { chartCommand } from '../../src/cli/chartCommand.ts'
import { exportText } from '../../src/core/log/exportFile.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { noteTemplate } from '../support/noteTemplate.ts'
import { sampleExport, sampleKey } from '../support/sampleExport.ts'
import { sampleLog } from '../support/sampleLog.ts'

const key = sampleKey()
const log = sampleLog()
let text: string

beforeAll(async () => {
  text = exportText(await sampleExport(log, key))
})

const run = (from: string, format: string, expected?: string) =>
  chartCommand(from, format, expected, { sha256, verifySignature })

describe('the chart command', () => {
  it('prints the note', async () => {
    expect(await run(text, 'note')).toEqual({ code: 0, out: writeNote(log, noteTemplate).text })
  })

  it('prints the bundle as JSON', async () => {
    const { code, out } = await run(text, 'fhir')
    expect(code).toBe(0)
    expect(JSON.parse(out ?? '')).toMatchObject({ resourceType: 'Bundle', type: 'collection' })
  })

  it('says that a log is good, how long, and by whose key', async () => {
    const { code, out } = await run(text, 'check', key.keyId)
    expect(code).toBe(0)
    expect(out).toMatch(/^good: 37 entries of draw D7-20261125-0003\n/)
    expect(out).toContain(key.keyId)
  })

  it('checks logs of older versions', async () => {
    const old = readFileSync(new URL('../fixtures/logs/version0.json', import.meta.url), 'utf8')
    expect(await run(old, 'check')).toMatchObject({ code: 0 })
  })

  it.each(['check', 'note', 'fhir'])(
    'names the first bad entry and prints no %s',
    async (format) => {
      const forged = text.replace('"type":"needleIn"', '"type":"needleIN"')
      expect(await run(forged, format)).toEqual({
        code: 1,
        err: 'bad: entry 12, brokenHash: Entry 12 was changed after it was written: its hash does not fit.',
      })
    },
  )

  it('finds a changed signature, and a key that is not the one asked for', async () => {
    const last = /"signature":"(.)/.exec(text)?.[1] === '0' ? '1' : '0'
    const forged = text.replace(/"signature":"./, `"signature":"${last}`)
    expect(await run(forged, 'check')).toMatchObject({ code: 1 })
    expect(await run(text, 'check', 'f'.repeat(16))).toMatchObject({ code: 1 })
  })

  it.each([
    ['an unknown format', () => text, 'pdf'],
    ['a foreign file', () => '{"resourceType":"Bundle"}', 'check'],
    ['text', () => 'hello', 'note'],
  ])('answers %s with exit code 2 and a sentence', async (_what, from, format) => {
    const { code, out, err } = await run(from(), format)
    expect(code).toBe(2)
    expect(out).toBeUndefined()
    expect(err).toMatch(/\.$/)
  })
})
