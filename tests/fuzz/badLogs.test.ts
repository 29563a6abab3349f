import { beforeAll, describe, expect, it } from 'vitest'
import { exportText } from '../../src/core/log/exportFile.ts'
import { sealAll } from '../../src/core/log/seal.ts'
import type { LogOffer } from '../../src/app/intake/intakeJobs.ts'
import type { DrawLog, UnsealedEntry } from '../../src/core/protocol/entry.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { labelsFor } from '../../src/core/record/labels.ts'
import { attack, MUTANTS, PATIENCE } from '../support/fuzz/attack.ts'
import { mutateValue } from '../support/fuzz/mutateValue.ts'
import { birth, hollow, readable, when, within } from '../support/fuzz/nonsense.ts'
import { handlers } from '../support/fuzz/readers.ts'
import { createSeeded } from '../support/fuzz/seeded.ts'
import { noteTemplate } from '../support/noteTemplate.ts'
import { sampleExport, sampleKey, type SampleKey } from '../support/sampleExport.ts'
import { sampleLog, sha256 } from '../support/sampleLog.ts'

/** Each is sealed and signed, which takes longer than reading. */
const FORGED = Math.min(MUTANTS, 3000)
const NOW_ms = Date.UTC(2026, 10, 26)
let key: SampleKey
let texts: readonly [string, ...string[]]
let originals: ReadonlySet<string>

beforeAll(async () => {
  key = sampleKey()
  const logs = [
    sampleLog(),
    sampleLog({ add: [[200, { type: 'noteAdded', text: 'Größe 5 µL' }]], without: ({ type }) => type === 'drawClosed' }), // prettier-ignore
  ]
  const [first = '', ...more] = await Promise.all(
    logs.map(async (log) => exportText(await sampleExport(log, key))),
  )
  texts = [first, ...more]
  originals = new Set(
    texts.map((text) => JSON.stringify((JSON.parse(text) as { log: unknown }).log)),
  )
})

async function readLog(bytes: Uint8Array): Promise<LogOffer | undefined> {
  const read = await handlers.log({ bytes, keys: {}, now_ms: NOW_ms })
  return read.ok ? read.value : undefined
}

/** What is in a log whose hashes and signature fit but that nobody can have written at a chair. */
function logNonsense({ log }: LogOffer): string[] {
  const opened = log.entries[0]?.event
  if (opened?.type !== 'drawOpened') return ['no opening']
  const { patient, plan, order } = opened
  const ids = plan.tubes.map(({ id }) => id)
  return [
    ...hollow(log),
    ...when(!/^[A-Z0-9-]{1,40}$/.test(log.drawId), `cannot be printed: ${log.drawId}`),
    ...readable('name', patient.fullName.trim(), false),
    ...readable('record number', patient.recordNumber.trim(), false),
    ...readable('order number', order.orderNumber.trim(), false),
    ...birth(patient.birthDate, '2026-11-26'),
    ...within('weight', patient.weight_kg ?? 70, 0.2, 650),
    ...within('hematocrit', patient.haematocrit_pct ?? 42, 1, 90),
    ...when(new Set(ids).size < ids.length, 'two tubes of one id'),
    ...when(ids.some((id) => !/^[A-Za-z]+\d+$/.test(id)), `tube ids ${ids.join()}`),
    ...plan.tubes.flatMap((tube) => [
      ...within('nominal volume', tube.nominal_mL, 0.01, 200),
      ...within('least volume', tube.least_mL, 0, tube.nominal_mL),
      ...within('inversions', tube.inversions.min, 0, tube.inversions.max),
    ]),
    ...log.entries.flatMap(({ event, seq }, index) => [
      ...when(seq !== index + 1, `entry ${index + 1} is ${seq}`),
      ...(event.type === 'tubeOff' ? within('volume', event.estimate_mL ?? 1, 0, 200) : []),
    ]),
  ] // prettier-ignore
}

describe('logs that were tampered with', PATIENCE, () => {
  it('are refused, or are the log that was signed', async () => {
    const nonsense = ({ log }: LogOffer) =>
      when(!originals.has(JSON.stringify(log)), 'another log than was signed')
    const result = await attack({ seeds: { format: 'json', texts }, read: readLog, nonsense })
    expect(result.broken).toEqual([])
    expect(result.refused).toBeGreaterThan(result.accepted)
  })

  it.each([0, -1, 0.5, 2, 1e308])(
    'are refused where they say another version: %s',
    async (version) => {
      const [text] = texts
      const changed = text.replace('"version":1', `"version":${version}`)
      expect(changed).not.toBe(text)
      expect(await readLog(new TextEncoder().encode(changed))).toBeUndefined()
    },
  )

  it('are refused when they are nonsense, though hashes and signature fit', async () => {
    const broken: string[] = []
    let accepted = 0
    for (let seed = 1; seed <= FORGED; seed += 1) {
      const text = await forged(seed)
      const offer = await readLog(new TextEncoder().encode(text)).catch((error: unknown) => {
        broken.push(`${seed}: threw ${String(error)}`)
        return undefined
      })
      if (!offer) continue
      accepted += 1
      const odd = logNonsense(offer)
      if (odd.length > 0) broken.push(`${seed}: ${odd.join('; ')}`)
      try {
        writeNote(offer.log, noteTemplate)
        labelsFor(offer.log)
      } catch (error) {
        broken.push(`${seed}: no record of it: ${String(error)}`)
      }
    }
    expect(broken).toEqual([])
    expect(accepted).toBeGreaterThan(0)
  })
})

/** A log with something changed in its entries, sealed and signed anew by a key of the forger's. */
async function forged(seed: number): Promise<string> {
  const random = createSeeded(seed)
  const log = sampleLog()
  const bare = log.entries.map(({ hash: _h, previous: _p, ...entry }) => entry)
  const changed = mutateValue(mutateOpening(bare, random.below(2) === 0, seed), random)
  try {
    const entries = sealAll(changed as UnsealedEntry[], sha256)
    const opened = entries[0]?.event as { drawId?: string } | undefined
    const again: DrawLog = { ...log, drawId: opened?.drawId ?? log.drawId, entries }
    return exportText(await sampleExport(again, key))
  } catch {
    // What cannot even be sealed is no file.
    return ''
  }
}

/** Half of the changes fall on the opening, which is most of what a record says. */
function mutateOpening(entries: unknown[], really: boolean, seed: number): unknown[] {
  if (!really) return entries
  return [mutateValue(entries[0], createSeeded(seed + 1_000_000)), ...entries.slice(1)]
}
