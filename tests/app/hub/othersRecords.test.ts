import { describe, expect, it } from 'vitest'
import { createOthersRecords } from '../../../src/app/hub/othersRecords.ts'
import { drawLogName } from '../../../src/core/hub/logNames.ts'
import type { ReplicaEntry, ReplicaLog } from '../../../src/core/hub/replica.ts'
import {
  logOf,
  SAMPLE_START_ms,
  sampleOpening,
  sha256,
  straightLines,
} from '../../support/sampleLog.ts'
import { list, twoChairs, type Chair } from '../../support/twoChairs.ts'

const namesOn = ({ state }: Chair): readonly string[] =>
  state().day.rows.flatMap((row) => (row.kind === 'orders' ? [row.group.patient.fullName] : []))

it('shows the orders of patients that others list, and nobody’s practice', async () => {
  const { a, b, hub } = await twoChairs()
  await a.actions.day.addDemoDay()
  await list(a)
  await a.pass(5)
  await b.pass(5)
  expect(namesOn(a).length).toBeGreaterThan(1)
  expect(namesOn(b)).toEqual(['Anna First'])
  // A practice draw stays where it is made.
  await a.actions.startPractice('straight-draw')
  await a.pass(5)
  const reader = hub.join('c')
  reader.start()
  await a.pass(1)
  const logs = new Set((await reader.read({}, 0)).map(({ log }) => log.split('-')[0]))
  expect([...logs]).toEqual(['day'])
})

describe('a draw of another device', () => {
  const LOG = logOf(straightLines(sampleOpening()), SAMPLE_START_ms)
  const NAME = drawLogName(LOG.drawId)
  const entriesOf = (raws: readonly unknown[]) =>
    raws.map((raw, index) => ({ seq: index + 1, hash: LOG.entries[index]?.hash ?? '', raw }))
  const whole = entriesOf(LOG.entries)
  const at = (entries: readonly ReplicaEntry[]): ReplicaLog => ({
    ...{ log: NAME, entries, hands: [{ device: 'b', from_seq: 1, at_ms: 0 }] },
    ...{ sure: entries.length, sequence: entries.length, at_ms: 0 },
  })
  const others = () =>
    createOthersRecords(
      'a',
      (id) => `Chair ${id}`,
      (id) => id !== 'gone',
      sha256,
    )

  it('stands on the list by its opening, open until its end has come', () => {
    const records = others()
    records.notice([at(whole.slice(0, 3))])
    expect(records.draws()).toMatchObject([{ drawId: LOG.drawId, closed: false, entries: 3 }])
    records.notice([at(whole)])
    expect(records.draws()).toMatchObject([{ closed: true, entries: whole.length }])
    const odd = entriesOf([{ no: 'opening' }, ...LOG.entries.slice(1)])
    records.notice([at(odd.map((each) => ({ ...each, hash: `another ${each.seq}` })))])
    expect(records.draws()).toEqual([])
    expect(records.load(LOG.drawId)).toBeUndefined()
  })

  it('tells who began it, unless that was this device, or one that has left the clinic', () => {
    const begun = (first: string): string | undefined => {
      const records = others()
      const hands = [first, 'b'].map((device, i) => ({ device, from_seq: 1 + 2 * i, at_ms: 0 }))
      records.notice([{ ...at(whole), hands }])
      return records.draws()[0]?.begunBy
    }
    expect(['b', 'c', 'a', 'gone'].map(begun)).toEqual(['Chair b', 'Chair c', undefined, undefined])
  })

  it('is one and the same for as long as nothing was written on, whatever else came', () => {
    const records = others()
    records.notice([at(whole.slice(0, 3))])
    const first = records.load(LOG.drawId)
    expect(first?.entries).toHaveLength(3)
    records.notice([at(whole.slice(0, 3))])
    expect(records.load(LOG.drawId)).toBe(first)
    records.notice([at(whole.slice(0, 4))])
    expect(records.load(LOG.drawId)?.entries).toHaveLength(4)
  })

  it('is another one where a hub came back with another draw of that number in its place', () => {
    const records = others()
    const patient = { ...sampleOpening().patient, fullName: 'Berta Other' }
    const second = logOf(straightLines(sampleOpening({ patient })), SAMPLE_START_ms)
    // As the hub's messages are folded: the entries are replaced where they stand.
    const entries = [...whole]
    records.notice([at(entries)])
    expect(records.draws()[0]?.patientName).toBe('Alex Invented')
    entries.length = 0
    entries.push(...second.entries.map((raw) => ({ seq: raw.seq, hash: raw.hash, raw })))
    records.notice([at(entries)])
    expect(records.draws()[0]?.patientName).toBe('Berta Other')
    expect(records.load(LOG.drawId)?.entries[0]?.hash).toBe(second.entries[0]?.hash)
  })

  it('is checked when it is asked for: behind a fault nothing counts', () => {
    const records = others()
    const third = LOG.entries[2]
    const raws = LOG.entries.map((entry) => (entry === third ? { ...entry, by: 'x' } : entry))
    records.notice([at(entriesOf(raws))])
    expect(records.load(LOG.drawId)?.fault).toMatchObject({ seq: 3 })
  })
})
