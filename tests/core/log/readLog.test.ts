import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'
import { canonicalJson } from '../../../src/core/log/canonicalJson.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { exportText, type ExportFile } from '../../../src/core/log/exportFile.ts'
import { readLog, signatureFault } from '../../../src/core/log/readLog.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { sampleExport, sampleKey } from '../../support/sampleExport.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'

const fixture = (name: string): string =>
  readFileSync(new URL(`../../fixtures/logs/${name}`, import.meta.url), 'utf8')

const log = sampleLog()
const key = sampleKey()
let file: ExportFile
let text: string

beforeAll(async () => {
  file = await sampleExport(log, key)
  text = exportText(file)
})

function read(from: string) {
  const result = readLog(from, sha256)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  const [{ trailer, signedText }] = result.value.parts
  return { ...result.value, trailer, signedText }
}

const refused = (from: string) => {
  const result = readLog(from, sha256)
  return result.ok ? undefined : result.faults[0]
}

const changed = (change: (copy: { log: { entries: unknown[] }; trailer: object }) => unknown) => {
  const copy = JSON.parse(text) as { log: { entries: unknown[] }; trailer: object }
  return `${canonicalJson(change(copy) ?? copy)}\n`
}

describe('readLog', () => {
  it('gives back the very log that was exported, and what its signature is over', async () => {
    const { log: back, trailer, signedText } = read(text)
    expect(back).toEqual(log)
    expect(trailer.entries).toBe(log.entries.length)
    expect(await verifySignature(trailer.publicKey, signedText, trailer.signature)).toBe(true)
  })

  it('names the entry in which a cut file breaks off', () => {
    const at = text.indexOf('"seq":12,')
    expect(refused(text.slice(0, at))).toMatchObject({ kind: 'truncated', seq: 12 })
    expect(refused(text.slice(0, -2))).toMatchObject({ kind: 'truncated', seq: 0 })
    expect(refused('{')).toMatchObject({ kind: 'truncated', seq: 1 })
  })

  it('names the entry in which a file stops being JSON', () => {
    const at = text.indexOf('"type":"needleIn"')
    const broken = `${text.slice(0, at)}}${text.slice(at + 1)}`
    const seq = log.entries.find(({ event }) => event.type === 'needleIn')?.seq
    expect(seq).toBeGreaterThan(1)
    expect(refused(broken)).toMatchObject({ kind: 'notJson', seq })
  })

  it('finds entries cut off the end, whatever else is right', () => {
    const cut = changed((copy) => void copy.log.entries.splice(-2))
    expect(refused(cut)).toMatchObject({ kind: 'truncated', seq: log.entries.length - 1 })
  })

  it('refuses a log without its trailer, for its end cannot be known', () => {
    const bare = changed(({ log: only }) => ({ log: only }))
    expect(refused(bare)).toMatchObject({ kind: 'truncated', seq: log.entries.length + 1 })
  })

  it('finds an entry added after the export', () => {
    const fewer = changed((copy) => ({
      ...copy,
      trailer: { ...copy.trailer, entries: log.entries.length - 1 },
    }))
    expect(refused(fewer)).toMatchObject({ kind: 'altered', seq: log.entries.length })
  })

  it('finds a trailer that belongs to another log or another key', async () => {
    const other = await sampleExport(sampleLog({ opening: { site: 'Elsewhere' } }), key)
    expect(refused(exportText({ log, trailer: other.trailer }))).toMatchObject({ kind: 'altered' })
    const { publicKey } = sampleKey()
    const foreignKey = { ...file.trailer, publicKey }
    expect(refused(exportText({ log, trailer: foreignKey }))).toMatchObject({
      kind: 'badSignature',
    })
  })

  it.each([
    ['beside the log', (c: object) => ({ ...c, note: 'reviewed and approved' })],
    ['in the head of the log', (c: { log: object }) => ({ ...c, log: { ...c.log, note: 'x' } })],
  ])('refuses a field %s that no signature covers', (_where, change) => {
    expect(refused(changed(change))).toMatchObject({ kind: 'altered', id: 'unsignedField' })
  })

  it('finds a field added in the trailer by its signature', async () => {
    const added = changed((c) => ({ ...c, trailer: { ...c.trailer, note: 'x' } }))
    const reading = readLog(added, sha256)
    if (!reading.ok) throw new Error('should be read')
    expect(await signatureFault(reading.value, verifySignature)).toMatchObject({
      kind: 'badSignature',
    })
  })

  it('gives the true place of what is no JSON', () => {
    const at = text.indexOf('"mono_ms":') + '"mono_ms":'.length
    const number = /^\d+/.exec(text.slice(at))?.[0] ?? ''
    const nan = `${text.slice(0, at)}NaN${text.slice(at + number.length)}`
    expect(refused(nan)).toMatchObject({
      id: 'unreadableIn',
      seq: 1,
      values: { character: at + 1 },
    })
    expect(refused(`\uFEFF${text}`)).toMatchObject({ kind: 'altered', id: 'byteOrderMark' })
  })

  it('answers a number or a depth beyond all sense with a fault', () => {
    const deep = `${'['.repeat(20_000)}${']'.repeat(20_000)}`
    const trailer = text.replace('"exportedAt":', `"deep":${deep},"exportedAt":`)
    expect(refused(trailer)).toMatchObject({ kind: 'altered', id: 'tooDeep' })
    expect(refused(text.replace(/"exportedAt":\d+/, '"exportedAt":1e+400'))?.id).toBe('tooLarge')
  })

  it('takes the twin of a signature for what it is: the same log by the same signer', async () => {
    const { signature } = file.trailer
    // Order of the group of P-256: SEC 2 version 2, section 2.4.2; the twin: SEC 1, remark on ECDSA, from memory.
    const n = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n
    const s = (n - BigInt(`0x${signature.slice(64)}`)).toString(16).padStart(64, '0')
    const twin = exportText({
      log,
      trailer: { ...file.trailer, signature: signature.slice(0, 64) + s },
    })
    expect(twin).not.toBe(text)
    const reading = readLog(twin, sha256)
    if (!reading.ok) throw new Error('should be read')
    expect(await signatureFault(reading.value, verifySignature)).toBeUndefined()
    expect(reading.value.log).toEqual(log)
  })

  it('finds a change that leaves the JSON the same', () => {
    expect(refused(` ${text}`)).toMatchObject({ kind: 'altered' })
    expect(refused(text.replace(',"seq"', ', "seq"'))).toMatchObject({ kind: 'altered' })
    expect(refused(JSON.stringify(JSON.parse(text), null, 2))).toMatchObject({ kind: 'altered' })
    expect(refused(text.replace('{"log":', '{"log":1,"log":'))).toMatchObject({ kind: 'altered' })
  })

  it.each([
    ['an empty file', '', 'foreign'],
    ['text', 'Dear colleague,', 'foreign'],
    ['a list', '[]', 'foreign'],
    ['null', 'null', 'foreign'],
    ['JSON of another kind', '{"resourceType":"Bundle"}', 'foreign'],
  ])('refuses %s', (_what, from, kind) => {
    expect(refused(from)).toMatchObject({ kind })
  })

  it('refuses a log of a version to come', () => {
    expect(refused(changed((c) => ({ ...c, log: { ...c.log, version: 2 } })))).toMatchObject({
      kind: 'futureVersion',
    })
  })
})

describe('logs of older versions', () => {
  it('still reads version 1 as it was written', async () => {
    const { log: back, trailer, signedText, upgradedFrom } = read(fixture('version1.json'))
    expect(upgradedFrom).toBeUndefined()
    expect(await verifySignature(trailer.publicKey, signedText, trailer.signature)).toBe(true)
    expect(factsOf(back).tubes).toHaveLength(3)
  })

  it('brings version 0 up: same facts, a chain that holds, and the old signature still checked', async () => {
    const { log: back, trailer, signedText, upgradedFrom } = read(fixture('version0.json'))
    expect(upgradedFrom).toBe(0)
    expect(back.version).toBe(1)
    expect(checkLog(back, sha256)).toMatchObject({ ok: true })
    expect(await verifySignature(trailer.publicKey, signedText, trailer.signature)).toBe(true)
    expect(factsOf(back)).toEqual(factsOf(read(fixture('version1.json')).log))
  })

  it('finds a change in version 0 before it is brought up', () => {
    const forged = fixture('version0.json').replace('"full":true', '"full":false')
    expect(refused(forged)).toMatchObject({ kind: 'brokenHash', seq: 15 })
  })
})
