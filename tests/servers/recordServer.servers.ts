import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { transactionText } from '../../src/app/record/transactionText.ts'
import type { Transaction } from '../../src/core/fhir/transaction.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { texts } from '../../src/data/en/texts.ts'
import {
  MRN,
  OPEN_SITE,
  ORDERS,
  STAFF,
  STRICT_SITE,
  transactionFor,
} from '../support/fhirTransaction.ts'
import { sampleCollector, sampleLog, sampleOpening, sha256 } from '../support/sampleLog.ts'
import { playSeries, readScript, scenarioFiles, scenarioSite } from '../support/scenarioSite.ts'
import { startHapi, type Hapi } from './hapi.ts'

let hapi: Hapi
beforeAll(async () => {
  hapi = await startHapi()
}, 430_000)
afterAll(() => hapi.stop())

/** A straight draw of a patient, a draw and an order of its own. */
function ofPatient(n: number, add: Parameters<typeof sampleLog>[0] = {}): DrawLog {
  const opening = sampleOpening()
  return sampleLog({
    ...add,
    opening: {
      drawId: `D7-20261125-${String(n).padStart(4, '0')}`,
      patient: { ...opening.patient, recordNumber: `MRN-${n}` },
      order: { ...opening.order, orderNumber: `ORD-${n}` },
    },
  })
}

const addendum = { type: 'addendumMade', by: sampleCollector, text: 'x', why: 'y' } as const
const typesOf = (transaction: Transaction) =>
  transaction.entry.map(({ resource }) => resource.resourceType)
const conditions = (transaction: Transaction): string[] =>
  transaction.entry.map(({ resource, request }) =>
    request.method === 'PUT' ? request.url : `${resource.resourceType}?${request.ifNoneExist}`,
  )

describe('a HAPI FHIR R4 server', () => {
  it('refuses the collection, which is for reading', async () => {
    const { status, issues } = await hapi.send({ resourceType: 'Bundle', type: 'collection' })
    expect(status).toBe(400)
    expect(issues.join()).toContain('collection')
  })

  it('takes the same transaction twice: all created, then nothing changed, counts and versions', async () => {
    const transaction = transactionFor(ofPatient(101), OPEN_SITE)
    const first = await hapi.send(transaction)
    expect(first.entries).toEqual(
      typesOf(transaction).map((type) => ({ type, status: '201', version: '1' })),
    )
    const again = await hapi.send(transaction)
    expect(again.entries).toEqual(
      typesOf(transaction).map((type) => ({ type, status: '200', version: '1' })),
    )
    for (const condition of conditions(transaction)) expect(await hapi.count(condition)).toBe(1)
  })

  it('makes a new version of the note and a new Provenance of an addendum, and leaves specimens be', async () => {
    const before = transactionFor(ofPatient(102), OPEN_SITE)
    await hapi.send(before)
    const after = transactionFor(ofPatient(102, { add: [[500, addendum]] }), OPEN_SITE)
    const { entries } = await hapi.send(after)
    const created = entries.filter(({ status }) => status === '201').map(({ type }) => type)
    expect(created).toEqual(['Provenance', 'AuditEvent'])
    const grown = entries.filter(({ version }) => version === '2').map(({ type }) => type)
    expect(new Set(grown)).toEqual(new Set(['Procedure', 'DocumentReference']))
    const third = await hapi.send(after)
    expect(third.entries.every(({ status }) => status === '200')).toBe(true)
    expect(third.entries.filter(({ version }) => version === '3')).toEqual([])
  })

  it('sent the same four times at once holds everything once; what it refuses as a conflict goes again', async () => {
    const transaction = transactionFor(ofPatient(103), OPEN_SITE)
    const sent = await Promise.all([1, 2, 3, 4].map(() => hapi.send(transaction)))
    const statuses = sent.map(({ status }) => status)
    expect(statuses.filter((status) => status !== 200 && status !== 409)).toEqual([])
    expect(statuses).toContain(200)
    expect((await hapi.send(transaction)).status).toBe(200)
    for (const condition of conditions(transaction)) expect(await hapi.count(condition)).toBe(1)
  })

  it('finds patient, person and order of the site, and refuses all of it where one is missing', async () => {
    const log = ofPatient(104)
    const strict = transactionFor(log, STRICT_SITE)
    const refused = await hapi.send(strict)
    expect(refused.status).toBeGreaterThanOrEqual(400)
    expect(refused.status).toBeLessThan(500)
    expect(refused.issues.join()).toContain('MRN-104')
    for (const condition of conditions(strict)) expect(await hapi.count(condition)).toBe(0)
    const patient = await hapi.call('POST', '/Patient', {
      resourceType: 'Patient',
      identifier: [{ system: MRN, value: 'MRN-104' }],
      name: [{ text: 'As the site writes it' }],
    })
    const subject = { reference: `Patient/${String(patient.body['id'])}` }
    if ((await hapi.count(`Practitioner?identifier=${STAFF}|RE`)) === 0) {
      const identifier = [{ system: STAFF, value: 'RE' }]
      await hapi.call('POST', '/Practitioner', { resourceType: 'Practitioner', identifier })
    }
    for (const code of ['test-citrate', 'test-activatorGel', 'test-edtaK2']) {
      await hapi.call('POST', '/ServiceRequest', {
        ...{ resourceType: 'ServiceRequest', status: 'active', intent: 'order', subject },
        requisition: { system: ORDERS, value: 'ORD-104' },
        code: { coding: [{ system: 'urn:stillhand:test', code }] },
      })
    }
    const taken = await hapi.send(strict)
    expect(taken.entries.map(({ status }) => status)).toEqual(strict.entry.map(() => '201'))
    const [specimen] = await hapi.search(
      `Specimen?identifier=${encodeURIComponent('urn:stillhand:specimen|D7261125010401')}`,
    )
    expect(specimen?.['subject']).toMatchObject(subject)
    expect(await hapi.count(`Patient?identifier=${encodeURIComponent(`${MRN}|MRN-104`)}`)).toBe(1)
  })

  it('marks what was of another person once an addendum says so', async () => {
    await hapi.send(transactionFor(ofPatient(105), OPEN_SITE))
    const wrong = ofPatient(105, { add: [[500, { ...addendum, wrongPerson: true }]] })
    await hapi.send(transactionFor(wrong, OPEN_SITE))
    const number = encodeURIComponent('urn:stillhand:specimen|D7261125010501')
    const [specimen] = await hapi.search(`Specimen?identifier=${number}`)
    expect(specimen?.['status']).toBe('entered-in-error')
  })

  it('takes every closed practice draw, twice, and holds each thing once', async () => {
    let taken = 0
    for (const [index, { name, text }] of scenarioFiles().entries()) {
      const reading = readScript(text)
      if (!reading.ok) throw new Error(`${name} does not read.`)
      for (const { log } of playSeries(reading.value, 1000 + index * 10)) {
        const made = transactionText(
          log,
          { catalogue: scenarioSite.catalogue, recordTexts: texts, recordSystems: OPEN_SITE },
          sha256,
        )
        if (!made.ok) {
          expect(made.faults, name).toEqual(['open'])
          continue
        }
        const transaction = JSON.parse(made.value) as Transaction
        const first = await hapi.send(transaction)
        expect(first.issues, name).toEqual([])
        expect(first.status, name).toBe(200)
        const again = await hapi.send(transaction)
        expect(
          again.entries.filter(({ status }) => status !== '200'),
          name,
        ).toEqual([])
        for (const [i, { version }] of again.entries.entries()) {
          expect(version, name).toBe(first.entries[i]?.version)
        }
        taken++
      }
    }
    // The other scripts end within the draw: an open one has no transaction.
    expect(taken).toBeGreaterThanOrEqual(28)
  })
})
