import { createHash } from 'node:crypto'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { manifestCsv, manifestFor, manifestJson } from '../../../src/app/view/manifestFiles.ts'
import { sentPacks } from '../../../src/core/courier/sentPacks.ts'
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

  it('says that practice is practice', () => {
    const practice = sampleSpecimens('D7-20261125-0009', [[3600, SENT]], true)
    const [pack] = sentPacks(practice, [])
    if (!pack) throw new Error('Nothing was sent.')
    expect(manifestFor(pack, '', SITE, sha256).practice).toBe(true)
  })
})
