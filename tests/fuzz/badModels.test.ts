import { createHash } from 'node:crypto'
import { gunzipSync, gzipSync } from 'node:zlib'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { checkArchive } from '../../src/adapters/speech/vosk/checkArchive.ts'
import { ModelTrouble } from '../../src/adapters/speech/vosk/engine.ts'
import { MUTANTS, PATIENCE } from '../support/fuzz/attack.ts'
import { createSeeded, type Seeded } from '../support/fuzz/seeded.ts'

afterEach(() => vi.unstubAllGlobals())

interface Entry {
  readonly name: string
  readonly text?: string
  readonly type?: string
  /** What the header says, where that is not how long the text is. */
  readonly size?: number
}

/** A header as POSIX.1-2017 has it (pax, "ustar Interchange Format"), written apart from what reads it. */
function header({ name, text = '', type = '0', size = text.length }: Entry): Buffer {
  const block = Buffer.alloc(512)
  block.write(name, 0, 100, 'latin1')
  block.write('0000644\0', 100)
  block.write('0000000\0', 108)
  block.write('0000000\0', 116)
  block.write(`${size.toString(8).padStart(11, '0')}\0`, 124)
  block.write('00000000000\0', 136)
  block.write('        ', 148)
  block.write(type, 156)
  block.write('ustar\x0000', 257)
  const sum = block.reduce((total, byte) => total + byte, 0)
  block.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148)
  return block
}

const tar = (entries: readonly Entry[]): Buffer =>
  Buffer.concat([
    ...entries.flatMap((entry) => {
      const text = Buffer.alloc(Math.ceil((entry.text?.length ?? 0) / 512) * 512)
      text.write(entry.text ?? '')
      return [header(entry), text]
    }),
    Buffer.alloc(1024),
  ])

const GOOD: readonly Entry[] = [
  { name: 'model/', type: '5' },
  { name: 'model/conf/mfcc.conf', text: '--sample-frequency=16000\n' },
  { name: 'model/am/final.mdl', text: 'x'.repeat(1500) },
]
const good = gzipSync(tar(GOOD))

/** What the app makes of an archive: nothing, or why it is refused. */
async function refusal(bytes: Uint8Array, sha256?: string): Promise<string | undefined> {
  vi.stubGlobal('fetch', () => Promise.resolve(new Response(new Uint8Array(bytes))))
  try {
    await checkArchive('http://here/models/x.tar.gz', sha256, 5000)
    return undefined
  } catch (error) {
    if (!(error instanceof ModelTrouble)) throw error
    return error.fault.code
  }
}

/** By Node's own gunzip: where the files of an archive would land, and what lands there. */
function landings(bytes: Uint8Array): readonly { name: string; type: string; size: number }[] {
  const all = gunzipSync(bytes, { maxOutputLength: 50_000_000 })
  const found = []
  for (let at = 0; at + 512 <= all.length && all[at] !== 0;) {
    const field = (from: number, to: number): string =>
      all.subarray(at + from, at + to).toString('latin1').replace(/\0.*$/s, '') // prettier-ignore
    const size = Number.parseInt(field(124, 136), 8)
    found.push({ name: `${field(345, 500)}${field(0, 100)}`, type: field(156, 157), size })
    at += 512 + Math.ceil(size / 512) * 512
  }
  return found
}

describe('a model that nobody has vouched for', PATIENCE, () => {
  it('is taken when it holds plain files', async () => {
    expect(await refusal(good)).toBeUndefined()
  })

  it.each<[string, Uint8Array]>([
    ['no gzip', Buffer.from('not an archive')],
    ['gzip of something else', gzipSync('x'.repeat(5000))],
    ['an empty file', new Uint8Array()],
    ['gzip that breaks off', good.subarray(0, good.length - 20)],
    ['tar that breaks off', gzipSync(tar(GOOD).subarray(0, 2000))],
    ['a way out', gzipSync(tar([...GOOD, { name: '../../outside', text: 'x' }]))],
    ['a way out within', gzipSync(tar([{ name: 'model/../../outside', text: 'x' }]))],
    ['a path from the root', gzipSync(tar([{ name: '/etc/x', text: 'x' }]))],
    ['a link', gzipSync(tar([...GOOD, { name: 'model/link', type: '2' }]))],
    ['a hard link', gzipSync(tar([...GOOD, { name: 'model/link', type: '1' }]))],
    ['a device', gzipSync(tar([...GOOD, { name: 'model/device', type: '3' }]))],
    ['a longer name than it shows', gzipSync(tar([{ name: 'x', type: 'L', text: '../../outside' }, ...GOOD]))], // prettier-ignore
    ['a size that nothing has', gzipSync(tar([{ name: 'model/x', size: 8_000_000_000, text: 'x' }]))], // prettier-ignore
    ['a name nobody sees', gzipSync(tar([{ name: 'model/\u0007x', text: 'x' }]))],
    ['more files than a model has', gzipSync(tar(Array.from({ length: 2500 }, (_, i) => ({ name: `m/${i}` }))))], // prettier-ignore
  ])('is refused: %s', async (_what, bytes) => {
    expect(await refusal(bytes)).toBe('badArchive')
  })

  it('that unpacks to a thousand times its size is given up, not unpacked', async () => {
    const bomb = gzipSync(Buffer.alloc(32_000_000))
    const before = process.cpuUsage()
    expect(await refusal(bomb)).toBe('badArchive')
    expect(process.cpuUsage(before).user / 1000).toBeLessThan(1000)
  })

  it('mutants of one never land outside, never throw, never hang', async () => {
    const broken: string[] = []
    let accepted = 0
    for (let seed = 1; seed <= MUTANTS; seed += 1) {
      const bytes = mutant(createSeeded(seed))
      const before = process.cpuUsage()
      const refused = await refusal(bytes)
      if (process.cpuUsage(before).user > 1_000_000) broken.push(`${seed}: took too long`)
      if (refused !== undefined) continue
      accepted += 1
      for (const { name, type, size } of landings(bytes)) {
        const out = name.startsWith('/') || name.split('/').includes('..')
        if (out || !/^[0 5]?$/.test(type) || !(size < 2e9)) broken.push(`${seed}: ${name} ${type}`)
      }
    }
    expect(broken).toEqual([])
    expect(accepted).toBeGreaterThan(0)
    expect(accepted).toBeLessThan(MUTANTS)
  })
})

it('a model with a hash is held to it, byte by byte', async () => {
  const hash = createHash('sha256').update(good).digest('hex')
  expect(await refusal(good, hash)).toBeUndefined()
  expect(await refusal(good, hash.toUpperCase())).toBeUndefined()
  for (let seed = 1; seed <= 100; seed += 1) {
    const bytes = Buffer.from(good)
    const place = createSeeded(seed).below(bytes.length)
    bytes[place] = ((bytes[place] ?? 0) + 1 + (seed % 255)) % 256
    if (!bytes.equals(good)) expect(await refusal(bytes, hash)).toBe('wrongChecksum')
  }
})

/** The good archive with something done to its entries, to a header, or to its bytes. */
function mutant(random: Seeded): Uint8Array {
  const entries = GOOD.map((entry) => ({ ...entry }))
  const entry = entries[random.below(entries.length)]
  if (random.below(2) === 0 && entry) {
    const kind = random.below(3)
    if (kind === 0)
      entry.name = random.one(['../x', '/x', 'a/../b', 'a/./b', '', 'a\0b', 'é', 'model/conf'])
    if (kind === 1)
      entry.type = random.one(['0', '1', '2', '3', '5', '6', 'L', 'x', 'g', '\0', '7'])
    if (kind === 2) entry.size = random.one([0, 1, 511, 513, 1e6, 8e9])
    return gzipSync(tar(entries))
  }
  const raw = random.below(2) === 0
  const bytes = raw ? Buffer.from(good) : tar(GOOD)
  const place = random.below(bytes.length)
  const kind = random.below(3)
  if (kind === 0) bytes[place] = random.below(256)
  const cut = kind === 1 ? bytes.subarray(0, place) : bytes
  const spliced = kind === 2 ? Buffer.concat([cut.subarray(0, place), bytes.subarray(random.below(bytes.length))]) : cut // prettier-ignore
  return raw ? spliced : gzipSync(spliced)
}
