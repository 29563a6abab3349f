import { describe, expect, it } from 'vitest'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { transactionOf } from '../../../src/core/fhir/transaction.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { asJson } from '../../support/fhirBundle.ts'
import { structureIssues } from '../../support/fhirDefinitions.ts'
import { DRAWS } from '../../support/fhirDraws.ts'
import {
  MRN,
  OPEN_SITE,
  ORDERS,
  STAFF,
  STRICT_SITE,
  transactionFor,
} from '../../support/fhirTransaction.ts'
import { memoryFhirServer } from '../../support/memoryFhirServer.ts'
import {
  logOf,
  sampleCollector,
  sampleLog,
  sampleOpening,
  sha256,
  straightLines,
} from '../../support/sampleLog.ts'

const addendum = {
  type: 'addendumMade',
  by: sampleCollector,
  text: 'Right arm.',
  why: 'Slip.',
} as const
const amended = sampleLog({ add: [[500, addendum]] })

const closed = DRAWS.filter(([, log]) =>
  log.entries.some(({ event }) => event.type === 'drawClosed'),
)
const numbered = closed.filter(([name]) => !name.includes('as little known'))

/** References as `Patient/id`, which tells the structure check what kind of resource they lead to. */
function typed(transaction: unknown): unknown {
  const { entry } = transaction as {
    entry: { fullUrl: string; resource: { resourceType: string } }[]
  }
  const types = new Map(entry.map(({ fullUrl, resource }) => [fullUrl, resource.resourceType]))
  const text = JSON.stringify(transaction).replace(
    /"reference":"([^"]+)"/g,
    (_, url: string) => `"reference":"${types.get(url) ?? url.split('?')[0]}/x"`,
  )
  return JSON.parse(text)
}

describe.each(numbered)('the transaction of %s', (_name, log) => {
  it('fits the structure definitions and refers to nothing that is not in it or looked for', () => {
    for (const site of [OPEN_SITE, STRICT_SITE]) {
      const transaction = asJson(transactionFor(log, site))
      const { entry } = transaction as { entry: { fullUrl: string }[] }
      const urls = new Set(entry.map(({ fullUrl }) => fullUrl))
      const references = JSON.stringify(transaction).match(/"reference":"[^"]+"/g) ?? []
      for (const reference of references) {
        const url = reference.slice(13, -1)
        expect(urls.has(url) || /^(Patient|Practitioner|ServiceRequest)\?/.test(url)).toBe(true)
      }
      expect(structureIssues(typed(transaction))).toEqual([])
    }
  })

  it('finds each entry by one condition of its own', () => {
    const { entry } = transactionFor(log, OPEN_SITE)
    const conditions = entry.map(({ request, resource }) =>
      request.method === 'PUT' ? request.url : `${resource.resourceType}?${request.ifNoneExist}`,
    )
    expect(new Set(conditions).size).toBe(conditions.length)
    for (const { resource, request } of entry) {
      expect('id' in resource).toBe(false)
      expect(request.url.split('?')[0]).toBe(resource.resourceType)
    }
  })
})

describe('a record server', () => {
  it('takes the same transaction twice and holds it once', async () => {
    const server = memoryFhirServer()
    const transaction = transactionFor(sampleLog(), OPEN_SITE)
    const types = transaction.entry.map(({ resource }) => resource.resourceType)
    const first = await server.send(transaction)
    expect(first.entries).toEqual(types.map((type) => `201 ${type}`))
    const again = await server.send(transaction)
    expect(again.entries).toEqual(types.map((type) => `200 ${type}`))
    for (const type of new Set(types)) {
      const count = types.filter((each) => each === type).length
      expect(await server.search(type)).toHaveLength(count)
    }
  })

  it('gets a new Provenance and one more AuditEvent by an addendum, and the note in its new words', async () => {
    const server = memoryFhirServer()
    await server.send(transactionFor(sampleLog(), OPEN_SITE))
    const { entries } = await server.send(transactionFor(amended, OPEN_SITE))
    expect(entries.filter((entry) => entry.startsWith('201'))).toEqual([
      '201 Provenance',
      '201 AuditEvent',
    ])
    expect(await server.search('Provenance')).toHaveLength(2)
    expect(await server.search('AuditEvent')).toHaveLength(2)
    const notes = await server.search('DocumentReference')
    expect(notes.map(({ docStatus }) => docStatus)).toEqual(['amended'])
    await server.send(transactionFor(amended, OPEN_SITE))
    expect(await server.search('Provenance')).toHaveLength(2)
  })

  // R4, provenance.html: an agent is whoever had a part in what it is about.
  it('is told who added to the record, also where that is nobody who drew', () => {
    const authorsIn = (log = amended): readonly unknown[] =>
      transactionFor(log, OPEN_SITE).entry.flatMap(({ resource }) => {
        if (resource.resourceType === 'Provenance')
          return [resource.agent.map(({ who }) => who.display)]
        return resource.resourceType === 'DocumentReference'
          ? [resource.author.map(({ display }) => display)]
          : []
      })
    const { name } = sampleCollector
    expect(authorsIn()).toEqual([[name], [name]])
    const later = { ...addendum, by: { id: 'c9', name: 'Lee Later', initials: 'LL' } }
    const both = [name, 'Lee Later']
    expect(authorsIn(sampleLog({ add: [[500, later]] }))).toEqual([both, both])
  })

  it('keeps its own patient, person and order where it has them', async () => {
    const server = memoryFhirServer()
    const number = (system: string, value: string) => [{ system, value }]
    await server.create('Patient', {
      ...{ resourceType: 'Patient', identifier: number(MRN, 'MRN-000123') },
      name: [{ family: 'As the site writes it' }],
    })
    await server.create('Practitioner', {
      ...{ resourceType: 'Practitioner', identifier: number(STAFF, 'RE') },
    })
    await server.create('ServiceRequest', {
      ...{ resourceType: 'ServiceRequest', status: 'active', intent: 'order' },
      requisition: { system: ORDERS, value: 'ORD-77' },
      code: { coding: [{ system: 'urn:stillhand:test', code: 'test-edtaK2' }] },
      subject: { reference: 'Patient/x' },
    })
    await server.send(transactionFor(sampleLog(), OPEN_SITE))
    const [patient, ...others] = await server.search('Patient')
    expect(others).toEqual([])
    expect(JSON.stringify(patient)).toContain('As the site writes it')
    const [specimen] = await server.search('Specimen')
    expect(specimen?.['subject']).toMatchObject({ reference: `Patient/${String(patient?.['id'])}` })
    expect(await server.search('Practitioner')).toHaveLength(1)
    expect(await server.search('ServiceRequest')).toHaveLength(3)
  })
})

describe('what is only found', () => {
  const bodyOf = (site = STRICT_SITE) => transactionFor(sampleLog(), site)

  it('is searched for and never sent', () => {
    const types = bodyOf().entry.map(({ resource }) => resource.resourceType)
    for (const type of ['Patient', 'Practitioner', 'ServiceRequest'])
      expect(types).not.toContain(type)
    const text = JSON.stringify(bodyOf())
    expect(text).toContain(`Patient?identifier=${encodeURIComponent(`${MRN}|MRN-000123`)}`)
    expect(text).toContain(`Practitioner?identifier=${encodeURIComponent(`${STAFF}|RE`)}`)
    const requisition = encodeURIComponent(`${ORDERS}|ORD-77`)
    const code = encodeURIComponent('urn:stillhand:test|test-citrate')
    expect(text).toContain(`ServiceRequest?requisition=${requisition}&code=${code}`)
  })

  it('is one request where the whole order has one, however many tests', () => {
    const { entry } = bodyOf({
      ...STRICT_SITE,
      order: { system: ORDERS, create: false, foundBy: 'identifier' },
    })
    const procedure = entry.find(({ resource }) => resource.resourceType === 'Procedure')?.resource
    expect(procedure).toMatchObject({
      basedOn: [
        { reference: `ServiceRequest?identifier=${encodeURIComponent(`${ORDERS}|ORD-77`)}` },
      ],
    })
  })

  it('is named by its number where the site said nothing of people and orders', () => {
    const { entry } = bodyOf({ patient: { system: MRN, create: false } })
    const types = entry.map(({ resource }) => resource.resourceType)
    expect(types).not.toContain('ServiceRequest')
    const specimen = entry.find(({ resource }) => resource.resourceType === 'Specimen')?.resource
    expect(specimen).toMatchObject({
      request: [{ identifier: { system: 'urn:stillhand:order', value: 'ORD-77' } }],
      collection: { collector: { identifier: { value: 'c1' }, display: 'Robin Example' } },
    })
  })

  it('is no search that any person or order would answer, where they gave no number', () => {
    const { collector, order } = sampleOpening()
    const opening = {
      collector: { ...collector, initials: ' ' },
      order: { ...order, orderNumber: '' },
    }
    const text = JSON.stringify(transactionFor(sampleLog({ opening }), STRICT_SITE))
    expect(text).not.toMatch(/(Practitioner|ServiceRequest)\?/)
    expect(text).toContain('"identifier":{"system":"urn:stillhand:collector","value":"c1"}')
  })

  // FHIR R4, "Escaping Search Parameters": comma, dollar, bar and backslash are escaped by a backslash.
  it('is searched for by exactly its number, whatever stands in it', () => {
    const opening = {
      patient: { ...sampleOpening().patient, recordNumber: 'a|b,c$d\\e&f=g\ud800' },
    }
    const text = JSON.stringify(transactionFor(sampleLog({ opening }), STRICT_SITE))
    const value = encodeURIComponent(`${MRN}|a\\|b\\,c\\$d\\\\e&f=g\ufffd`)
    expect(text).toContain(`Patient?identifier=${value}"`)
  })
})

describe('there is no transaction', () => {
  const faults = (log = sampleLog(), site = STRICT_SITE) => {
    const made = transactionOf(writeBundle(log, texts, sha256, undefined, site), site)
    return made.ok ? [] : made.faults
  }
  it('of a draw that is not closed', () => {
    expect(faults(sampleLog({ without: ({ type }) => type === 'drawClosed' }))).toEqual(['open'])
  })
  it('where nobody said how patients are found', () => {
    expect(faults(sampleLog(), {})).toEqual(['patientSystem'])
  })
  it.each(['', ' '])('of a patient without a number: "%s"', (recordNumber) => {
    const opening = { patient: { ...sampleOpening().patient, recordNumber } }
    expect(faults(sampleLog({ opening }))).toEqual(['patientNumber'])
  })
})

describe('a record of the wrong person', () => {
  const statuses = (log = sampleLog()) =>
    transactionFor(log, OPEN_SITE).entry.flatMap(({ resource }) =>
      'status' in resource ? [`${resource.resourceType} ${resource.status}`] : [],
    )

  it('is entered in error, body and blood, once an addendum says so; the note stays', () => {
    const wrong = sampleLog({ add: [[500, { ...addendum, wrongPerson: true }]] })
    const told = statuses(wrong)
    for (const type of ['Specimen', 'Procedure', 'Observation', 'Consent']) {
      expect(told).toContain(`${type} entered-in-error`)
      expect(statuses()).not.toContain(`${type} entered-in-error`)
    }
    expect(told).toContain('DocumentReference current')
  })

  it('is so where the identity did not match with a needle in', () => {
    const lines = straightLines().filter(([at]) => at < 200)
    const stopped = [
      ...lines,
      [200, { type: 'exceptionRaised', kind: 'identityMismatch' }] as const,
      [300, { type: 'drawClosed', outcome: 'stopped' }] as const,
    ]
    expect(statuses(logOf(stopped))).toContain('Procedure entered-in-error')
    const before = lines.filter(([at, { type }]) => at < 100 && type !== 'consentGiven')
    const never = logOf([
      ...before,
      [100, { type: 'exceptionRaised', kind: 'identityMismatch' }],
      [120, { type: 'drawClosed', outcome: 'notDrawn' }],
    ])
    expect(statuses(never)).toContain('Procedure not-done')
  })
})

describe('our own systems', () => {
  it('stand below the base of the site, codes apart from numbers', () => {
    const text = JSON.stringify(
      transactionFor(sampleLog(), { ...STRICT_SITE, base: 'https://example.org/fhir/' }),
    )
    expect(text).toContain('"system":"https://example.org/fhir/CodeSystem/tube"')
    expect(text).toContain('"system":"https://example.org/fhir/sid/specimen"')
    expect(text).toContain(encodeURIComponent('https://example.org/fhir/sid/log|'))
    expect(text).not.toContain('urn:stillhand:')
  })
})
