import { createHash } from 'node:crypto'
import Ajv from 'ajv'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { manifestCsv, manifestFor, manifestJson } from '../../../src/app/view/manifestFiles.ts'
import { sentPacks } from '../../../src/core/courier/sentPacks.ts'
import SCHEMA from '../../../src/data/schema/manifest.schema.json' with { type: 'json' }
import { sha256 } from '../../support/sampleLog.ts'
import { LABORATORIES, sampleSpecimens } from '../../support/samplePack.ts'
import { shippedSite } from '../../support/site.ts'

const SITE = { catalogue: shippedSite.catalogue, laboratories: LABORATORIES }
const SENT = {
  type: 'courierTook',
  tubeIds: ['t1', 't2'],
  courier: '=cmd()',
  pack: 'D7-20261125-P1A',
  laboratory: 'Example Laboratory',
  act: 'a1',
} as const
const ACT = {
  id: 'a1',
  act: { type: 'courierTook', pack: 'D7-20261125-P1A' },
  missing: { numbers: ['D7261125000303'], by: 'Robin Example' },
}

function manifest() {
  // An hour after the opening: lactate, 15 minutes, is out of time.
  const [pack] = sentPacks(sampleSpecimens('D7-20261125-0003', [[3600, SENT]]), [ACT])
  if (!pack) throw new Error('Nothing was sent.')
  return manifestFor(pack, 'Example Clinic', SITE, sha256)
}

describe('the manifest of a pack', () => {
  it('has the count, the numbers, what is out of time, and what is missing by whose word', () => {
    expect(manifest()).toMatchObject({
      format: 'stillhand-manifest',
      version: 1,
      practice: false,
      pack: 'D7-20261125-P1A',
      from: 'Example Clinic',
      laboratory: 'Example Laboratory',
      count: 2,
      sent: '2026-11-25T10:00:00+01:00',
      missing: ['D7261125000303'],
      missingSaidBy: 'Robin Example',
      specimens: [
        { number: 'D7261125000301', tests: ['cbc'], passed: [] },
        { number: 'D7261125000302', tests: ['lactate'], passed: ['lactate'] },
      ],
    })
  })

  it('has a sum that another program comes to as well, and that a changed number breaks', () => {
    // Node's own SHA-256 (FIPS 180-4), over the JSON of the file without the sum.
    const { checkSum, ...rest } = JSON.parse(manifestJson(manifest()).text) as {
      checkSum: string
      count: number
    }
    const sumOf = (what: object): string =>
      createHash('sha256').update(JSON.stringify(what)).digest('hex')
    expect(sumOf(rest)).toBe(checkSum)
    expect(sumOf({ ...rest, count: 3 })).not.toBe(checkSum)
  })

  it('is a table that no spreadsheet runs', () => {
    // OWASP, CSV Injection: a cell that begins with =, +, - or @ gets an apostrophe before it.
    const { data } = Papa.parse<Record<string, string>>(manifestCsv(manifest()).text, {
      header: true,
      skipEmptyLines: true,
    })
    expect(data.map(({ number }) => number)).toEqual(['D7261125000301', 'D7261125000302'])
    expect(data[0]?.['courier']).toBe("'=cmd()")
  })

  it('fits its published schema, by an independent validator, with runs, portions and what waits to be parted', () => {
    const spin = { type: 'spinStarted', tubeIds: ['t3'], g: 1300, spin_min: 10 } as const
    const acts = [
      [1800, spin],
      [2400, { type: 'spinEnded', tubeIds: ['t3'] }],
      [2500, { type: 'separated', tubeIds: ['t3'] }],
      [2600, { type: 'aliquoted', tubeIds: ['t3'], portions: 3 }],
      [2700, { type: 'stored', tubeIds: ['t3'], where: 'freezer' }],
      [3600, { ...SENT, tubeIds: ['t1', 't2', 't3'] }],
    ] as const
    const [pack] = sentPacks(sampleSpecimens('D7-20261125-0003', acts), [ACT])
    if (!pack) throw new Error('Nothing was sent.')
    const made = manifestFor(pack, 'Example Clinic', SITE, sha256)
    const serum = made.specimens.find(({ tests }) => tests.includes('bilirubinTotal'))
    expect(serum).toMatchObject({
      collectedBy: 'RE',
      priority: 'routine',
      spun: [{ started: '2026-11-25T09:30:00+01:00', g: 1300, spin_min: 10 }],
      separated: '2026-11-25T09:41:40+01:00',
      portions: 3,
      stored: { where: 'freezer' },
    })
    // The plasma of the fluoride tube is still on its cells.
    expect(made.specimens.find(({ tests }) => tests[0] === 'lactate')?.separateBy).toBeDefined()
    const validate = new Ajv({ allErrors: true, strict: false }).compile(SCHEMA)
    const read = JSON.parse(manifestJson(made).text) as Record<string, unknown>
    expect(validate(read) ? [] : validate.errors).toEqual([])
    for (const wrong of [{ count: -1 }, { sent: 'noon' }, { nobodyKnows: 1 }, { unknown: '' }]) {
      expect(validate({ ...read, ...wrong })).toBe(false)
    }
    const { data } = Papa.parse<Record<string, string>>(manifestCsv(made).text, { header: true })
    const row = data.find(({ number }) => number === serum?.number)
    expect(row).toMatchObject({ portions: '3', collectedBy: 'RE' })
    expect(row?.['spun']).toMatch(/1300 g 10 min/)
  })

  it('names of several orders that share a draw the one that asked for the tube, and who ordered it', () => {
    const [first, ...rest] = sampleSpecimens('D7-20261125-0003', [[3600, SENT]])
    if (!first) throw new Error('No specimen.')
    const parts = [
      { orderNumber: 'O-1', tests: ['cbc'], priority: 'routine', provider: 'Dr. A. Fictional' },
      { orderNumber: 'O-2', tests: ['lactate'], priority: 'stat', provider: 'Dr. B. Fictional' },
    ] as const
    const order = { ...first.order, orderNumber: 'O-1', parts }
    const all = [first, ...rest].map((each) => ({ ...each, order }))
    const [pack] = sentPacks(all, [ACT])
    const rows = pack && manifestFor(pack, '', SITE, sha256).specimens
    expect(rows?.map((row) => [row.orderNumber, row.priority, row.orderedBy])).toEqual([
      ['O-1', 'routine', 'Dr. A. Fictional'],
      ['O-2', 'stat', 'Dr. B. Fictional'],
    ])
  })

  it('says what went along and is no longer on record here, so that the count is not taken for all', () => {
    const specimens = [
      { drawId: 'D7-20261125-0003', tubeIds: ['t1', 't2'] },
      { drawId: 'D7-20261125-0004', tubeIds: ['t1'] },
    ]
    const sent = sampleSpecimens('D7-20261125-0003', [[3600, SENT]])
    const [pack] = sentPacks(sent, [{ ...ACT, specimens }])
    expect(pack?.unknown).toEqual(['D7261125000401'])
    const [back] = sentPacks(sent, [{ ...ACT, specimens, takenBack: true }])
    expect(back?.unknown).toEqual([])
  })

  it('says that practice is practice', () => {
    const practice = sampleSpecimens('D7-20261125-0009', [[3600, SENT]], true)
    const [pack] = sentPacks(practice, [])
    if (!pack) throw new Error('Nothing was sent.')
    expect(manifestFor(pack, '', SITE, sha256).practice).toBe(true)
  })
})
