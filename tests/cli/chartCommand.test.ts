import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { sha256 } from '../../src/adapters/crypto/sha256.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import { chartCommand } from '../../src/cli/chartCommand.ts'
import { exportText } from '../../src/core/log/exportFile.ts'
import { recordNote } from '../../src/core/record/recordNote.ts'
import { texts } from '../../src/data/en/texts.ts'
import { sampleExport, sampleKey } from '../support/sampleExport.ts'
import { sampleLog } from '../support/sampleLog.ts'

const key = sampleKey()
const log = sampleLog()
let text: string

beforeAll(async () => {
  text = exportText(await sampleExport(log, key))
})

const now_ms = Date.UTC(2026, 10, 26)
const run = (from: string | Uint8Array, format: string, expected?: string) => {
  const bytes = typeof from === 'string' ? Buffer.from(from) : from
  return chartCommand(bytes, format, expected, { sha256, verifySignature, now_ms })
}

describe('the chart command', () => {
  it('prints the note', async () => {
    expect(await run(text, 'note')).toEqual({ code: 0, out: recordNote(log, texts).text })
  })

  it('prints the bundle as JSON', async () => {
    const { code, out } = await run(text, 'fhir')
    expect(code).toBe(0)
    expect(JSON.parse(out ?? '')).toMatchObject({ resourceType: 'Bundle', type: 'collection' })
  })

  it('says of a log whose key was asked for that it is unchanged, how long, and by which key', async () => {
    const { code, out } = await run(text, 'check', key.keyId)
    expect(code).toBe(0)
    expect(out).toMatch(
      new RegExp(`^unchanged: ${log.entries.length} entries of draw D7-20261125-0003 are as key `),
    )
    expect(out).toContain(`Key ${key.keyId} is known here as the key that was asked for.`)
    expect(out).toContain('Not proven: that what was recorded happened')
  })

  it('says of a log with any key what is proven and that whose key it is is not', async () => {
    const { code, out } = await run(text, 'check')
    expect(code).toBe(0)
    expect(out).toContain(`Key ${key.keyId} is not known here: nobody has said whose it is.`)
    expect(out).toContain('Proven: no entry was changed, added, left out or moved since')
    expect(out).toContain('Not proven: whose key it is')
    expect(out).not.toMatch(/good|not closed/)
  })

  it('says that a draw was not closed when it was exported', async () => {
    const open = sampleLog({ without: ({ type }) => type === 'drawClosed' })
    const { out } = await run(exportText(await sampleExport(open, key)), 'check')
    expect(out).toContain('The draw was not closed when this was exported')
  })

  it('refuses bytes that are not UTF-8 where the text would read the same', async () => {
    const marked = sampleLog({ add: [[200, { type: 'noteAdded', text: 'a\uFFFDb' }]] })
    const bytes = Buffer.from(exportText(await sampleExport(marked, key)))
    const at = bytes.indexOf('\uFFFD')
    const cut = Buffer.concat([bytes.subarray(0, at), Buffer.from([0xff]), bytes.subarray(at + 3)])
    expect((await run(bytes, 'check')).code).toBe(0)
    expect(await run(cut, 'check')).toMatchObject({
      code: 1,
      err: expect.stringMatching(/UTF-8/) as string,
    })
  })

  it.each([
    [
      'an export time beyond all years',
      (from: string) => from.replace(/"exportedAt":\d+/, '"exportedAt":1e+300'),
    ],
    ['20,000 levels', (from: string) => from.replace('"exportedAt":', `"x":${'['.repeat(20_000)}`)],
  ])('answers %s with a sentence and an exit code', async (_what, change) => {
    expect(await run(change(text), 'check')).toMatchObject({
      code: 1,
      err: expect.stringMatching(/^bad: .*\.$/) as string,
    })
  })

  it('checks logs of older versions', async () => {
    const old = readFileSync(new URL('../fixtures/logs/version0.json', import.meta.url), 'utf8')
    expect(await run(old, 'check')).toMatchObject({ code: 0 })
  })

  it.each(['check', 'note', 'fhir'])(
    'names the first bad entry and prints no %s',
    async (format) => {
      const forged = text.replace('"type":"needleIn"', '"type":"needleIN"')
      const needle = log.entries.findIndex(({ event }) => event.type === 'needleIn') + 1
      expect(await run(forged, format)).toEqual({
        code: 1,
        err: `bad: entry ${needle}, brokenHash: Entry ${needle} was changed after it was written: its hash does not fit.`,
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
