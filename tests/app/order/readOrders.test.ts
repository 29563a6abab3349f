import { fixedZone } from '../../../src/core/time/zone.ts'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readOrders } from '../../../src/app/order/readOrders.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { fhirIssues } from '../../support/fhirChecks.ts'
import { SITE } from '../../support/planning.ts'

const EXAMPLES = join(import.meta.dirname, '..', '..', '..', 'examples')
const example = (name: string): string => readFileSync(join(EXAMPLES, name), 'utf8')
const site = { catalogue: SITE.catalogue, texts, today: '2026-11-26', zone: fixedZone(60) }
const read = (text: string) =>
  readOrders(text, site).map(({ where, reading, with: more }) => ({
    where,
    more,
    number: reading.ok ? reading.value.draft.orderNumber : undefined,
    name: reading.ok ? reading.value.draft.fullName : undefined,
    tests: reading.ok ? reading.value.draft.tests : undefined,
    faults: reading.ok ? [] : reading.faults,
  }))

describe('orders of a day in CSV', () => {
  it('are one a row, with when, where and to whom', () => {
    const found = read(example('day.csv'))
    expect(found.map(({ number }) => number)).toEqual(
      ['EXAMPLE-DAY-1', 'EXAMPLE-DAY-2', 'EXAMPLE-DAY-3', 'EXAMPLE-DAY-4'], // prettier-ignore
    )
    expect(found[2]?.more.place).toEqual({ kind: 'ward', text: '3 East, bed 12 (invented)' })
    expect(found[3]?.more).toEqual({
      due: { kind: 'timed', at_ms: Date.parse('2026-11-26T10:30:00+01:00') },
      place: { kind: 'home', text: '1 Imaginary Lane (invented)' },
    })
  })

  it('ask for fasting by a column of their own, whatever the tests do; another word is refused', () => {
    const [heading = '', first = '', second = '', third = ''] = example('day.csv').split('\n')
    const text = [`${heading},fasting`, `${first},yes`, `${second},`, `${third},perhaps`].join('\n')
    const found = read(text)
    expect(found.map(({ more }) => more.fasting)).toEqual([true, undefined, undefined])
    expect(found.map(({ faults }) => faults.length > 0)).toEqual([false, false, true])
    expect(found[2]?.faults.join()).toContain('perhaps')
  })

  it('are taken by none where there are more than a day has: 2,000', () => {
    const [heading = '', first = ''] = example('day.csv').split('\n')
    const many = (n: number): string =>
      [heading, ...Array.from({ length: n }, () => first)].join('\n')
    const [whole, ...others] = read(many(2001))
    expect(others).toEqual([])
    expect(whole?.faults.join()).toMatch(/2001.*2000/)
  })

  it('are refused each by itself, and none of the others with them', () => {
    const rows = example('day.csv').split('\n')
    rows[2] = rows[2]?.replace('1974-08-09', '1974-13-09') ?? ''
    rows[3] = rows[3]?.replace(',,"ward', ',noonish,"ward') ?? ''
    const found = read(rows.join('\n'))
    expect(found.map(({ faults }) => faults.length > 0)).toEqual([false, true, true, false])
    expect(found[1]?.where).toBe('3')
    expect(found[2]?.faults.join()).toContain('noonish')
  })

  it('that are no table are one refusal with its reason', () => {
    for (const text of ['', 'nothing', 'familyName,"open\n', '{']) {
      const found = read(text)
      expect(found, text).toHaveLength(1)
      expect(found[0]?.faults.length, text).toBeGreaterThan(0)
    }
  })
})

describe('orders of a day in a bundle', () => {
  it('are told apart by patient, number and time', () => {
    const found = read(example('day.fhir.json'))
    expect(found.map(({ number, tests }) => [number, tests])).toEqual([
      ['EXAMPLE-DAY-1', ['bmp', 'cbc']],
      ['EXAMPLE-DAY-2', ['folate']],
      ['EXAMPLE-DAY-3', ['tsh']],
    ])
    expect(found.map(({ name }) => name)).toEqual(
      ['Kim Madeup (invented)', 'Kim Madeup (invented)', 'Lee Nonesuch (invented)'], // prettier-ignore
    )
    expect(found[2]?.more).toEqual({
      due: { kind: 'timed', at_ms: Date.parse('2026-11-26T10:30:00Z') },
      place: { kind: 'ward', text: '3 East, bed 12 (invented)' },
    })
  })

  it('never give a request that names nobody to one of two patients', () => {
    const bundle = JSON.parse(example('day.fhir.json')) as {
      entry: { resource: { resourceType: string; subject?: unknown } }[]
    }
    const request = bundle.entry.find(({ resource }) => resource.resourceType === 'ServiceRequest')
    if (request) delete request.resource.subject
    const found = read(JSON.stringify(bundle))
    expect(found.filter(({ faults }) => faults.length > 0)).toHaveLength(1)
    expect(found.flatMap(({ tests }) => tests ?? []).sort()).toEqual(['cbc', 'folate', 'tsh'])
  })

  it('are an example that R4 allows', () => {
    expect(fhirIssues(JSON.parse(example('day.fhir.json')) as Record<string, unknown>)).toEqual([])
  })
})

it('reads 400 rows within what a worker is given', () => {
  const [head = '', row = ''] = example('day.csv').split('\n')
  const begun = performance.now()
  const found = read([head, ...Array.from({ length: 400 }, () => row)].join('\n'))
  expect(found.filter(({ faults }) => faults.length === 0)).toHaveLength(400)
  expect(performance.now() - begun).toBeLessThan(5000)
})

// IANA time zone database: in central Europe clocks go forward at 01:00 UTC on 2026-03-29.
it('a due time of the day after a change of the clocks is of its own local time', () => {
  const zone = [
    { from_ms: 0, offset_min: 60 },
    { from_ms: Date.UTC(2026, 2, 29, 1), offset_min: 120 },
  ] as const
  const evening = { ...site, today: '2026-03-28', zone }
  const text =
    'order,name,dob,id,tests,due\nKM-1,Ada Invented,1980-01-01,1,cbc,2026-03-29T08:00\nKM-2,Bea Invented,1980-01-01,2,cbc,22:00'
  expect(readOrders(text, evening).map(({ with: { due } }) => due?.at_ms)).toEqual([
    Date.UTC(2026, 2, 29, 6),
    Date.UTC(2026, 2, 28, 21),
  ])
})
