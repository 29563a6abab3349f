import { setTimeout as sleep } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createFetchRecordServer } from '../../src/adapters/fhir/fetchRecordServer.ts'
import { NO_ACCESS } from '../../src/adapters/fhir/noAccess.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import type { HandOverDeps } from '../../src/app/site/handOverDeps.ts'
import { ok } from '../../src/core/basics/result.ts'
import type { ServerAnswer } from '../../src/core/handOver/serverAnswer.ts'
import { handOverDevice, handOverPage } from '../support/handOverRig.ts'
import { MRN, ORDERS } from '../support/fhirTransaction.ts'
import { startHapi, type Hapi } from './hapi.ts'

let hapi: Hapi
beforeAll(async () => {
  hapi = await startHapi()
}, 560_000)
afterAll(() => hapi.stop())

type Device = ReturnType<typeof handOverDevice>

/** A page of a device whose record server is the real one. @param hold what is done once the server has answered */
function page(
  device: Device,
  change: Parameters<typeof handOverPage>[1] = {},
  hold: (answer: ServerAnswer) => Promise<ServerAnswer> = (answer) => Promise.resolve(answer),
) {
  const file = { address: hapi.base, orders: 'category=https://example.org/category|lab' }
  const rig = handOverPage(device, change)
  const given = rig.deps.handOver
  if (!given) throw new Error('no hand-over')
  const handOver: HandOverDeps = {
    ...given,
    find: () => Promise.resolve(ok(file)),
    connect: () => {
      const server = createFetchRecordServer({
        ...{ address: hapi.base, access: NO_ACCESS, clock: createSystemClock('test') },
        ...{ patience_s: 60, most_B: 2_000_000 },
      })
      const sent = async (answer: Promise<ServerAnswer>): Promise<ServerAnswer> => {
        device.sent.push('x')
        return hold(await answer)
      }
      return Promise.resolve({
        server: {
          address: server.address,
          transact: (text) => sent(server.transact(text)),
          put: (search, text) => sent(server.put(search, text)),
          search: (query) => server.search(query),
        },
        takePatient: () => undefined,
        launchFault: undefined,
        isLeaving: false,
        publicKeys: () => Promise.resolve(undefined),
      })
    },
  }
  return handOverPage(device, { ...change, logStore: rig.deps.logStore, handOver })
}

type Page = ReturnType<typeof page>

async function until(pages: readonly Page[], isSo: () => boolean): Promise<void> {
  for (let i = 0; i < 600 && !isSo(); i++) {
    for (const each of pages) {
      each.clock.advance(500)
      await each.rest()
    }
    await sleep(100)
  }
  if (!isSo()) throw new Error(JSON.stringify(pages.map((each) => each.view())).slice(0, 3000))
}
const isDone = (each: Page, n: number): boolean =>
  each.view().rows.filter(({ state }) => state === 'handedOver').length >= n

const ofPatient = (value: string): string => `identifier=${encodeURIComponent(`${MRN}|${value}`)}`
const countFor = async (type: string, value: string): Promise<number> =>
  hapi.count(`${type}?patient.${ofPatient(value)}`)

describe('the hand-over to a HAPI FHIR R4 server', () => {
  it('brings the records of a day there once, through a lost answer and a page killed in the middle', async () => {
    const device = handOverDevice()
    const first = page(device)
    await first.app.start()
    await first.actions.handOver.switchOn()
    await first.drawn(201)
    await until([first], () => isDone(first, 1))
    const { logStore } = first.deps
    await first.actions.handOver.pause(true)
    await first.drawn(202, { fullName: 'Bo Second' })
    await first.drawn(203, { fullName: 'Cy Third' })
    await first.actions.handOver.switchOff()
    // This page dies when the server has taken the first of them: it never hears the answer.
    device.locks = handOverDevice().locks
    const dying = page(device, { logStore }, () => new Promise(() => undefined))
    await dying.app.start()
    await dying.actions.handOver.switchOn()
    await until([dying], () => dying.view().left.some(({ answer }) => answer === 'unanswered'))
    await sleep(4000)
    device.locks = handOverDevice().locks
    const last = page(device, { logStore })
    last.clock.advance(600_000)
    await last.app.start()
    await until([last], () => isDone(last, 3))
    for (const value of ['MRN-201', 'MRN-202', 'MRN-203']) {
      expect(await hapi.count(`Patient?${ofPatient(value)}`), value).toBe(1)
      for (const type of ['Procedure', 'DocumentReference', 'Specimen']) {
        expect(await countFor(type, value), `${type} ${value}`).toBe(1)
      }
    }
  }, 300_000)

  it('holds each thing once where four pages without locks send the same at one time', async () => {
    const device = handOverDevice()
    const first = page(device)
    await first.app.start()
    await first.actions.handOver.switchOn()
    await first.actions.handOver.pause(true)
    await first.drawn(211)
    const { logStore } = first.deps
    const pages: Page[] = []
    for (let n = 0; n < 4; n++) {
      // Each its own locks and its own rows, as four browsers that know nothing of each other.
      const alone = { ...handOverDevice(), settings: handOverDevice().settings }
      const each = page(alone, { logStore, drawLot: () => n * 1_000_000_000 })
      await each.app.start()
      pages.push(each)
    }
    await Promise.all(pages.map((each) => each.actions.handOver.switchOn()))
    await Promise.all(pages.map((each) => each.actions.handOver.sendEarlier()))
    await until(pages, () => pages.every((each) => isDone(each, 1)))
    const answers = pages.flatMap((each) => each.view().left.map(({ answer }) => answer))
    expect(answers.filter((answer) => answer !== 'done' && answer !== 'conflict')).toEqual([])
    expect(await hapi.count(`Patient?${ofPatient('MRN-211')}`)).toBe(1)
    expect(await countFor('Procedure', 'MRN-211')).toBe(1)
  }, 300_000)

  it('fetches an order and tells how it stands: received, then canceled there and here', async () => {
    const device = handOverDevice()
    const identifier = [{ system: MRN, value: 'MRN-221' }]
    const name = [{ family: 'Invented', given: ['Pat'] }]
    const patient = await hapi.call('POST', '/Patient', {
      ...{ resourceType: 'Patient', identifier, name, birthDate: '1980-05-31', gender: 'female' },
    })
    const request = {
      ...{ resourceType: 'ServiceRequest', status: 'active', intent: 'order' },
      category: [{ coding: [{ system: 'https://example.org/category', code: 'lab' }] }],
      subject: { reference: `Patient/${String(patient.body['id'])}` },
      requisition: { system: ORDERS, value: 'ORD-221' },
      code: { coding: [{ system: 'urn:stillhand:test', code: 'cbc' }] },
    }
    const made = await hapi.call('POST', '/ServiceRequest', request)
    const id = String(made.body['id'])
    const one = page(device)
    await one.app.start()
    await one.actions.handOver.switchOn()
    await one.actions.handOver.fetchNow()
    await until([one], () => isDone(one, 1))
    const status = async (): Promise<unknown> =>
      (await hapi.search(`Task?focus=ServiceRequest/${id}`)).map((task) => task['status'])
    expect(await status()).toEqual(['received'])
    await hapi.call('PUT', `/ServiceRequest/${id}`, { ...request, id, status: 'revoked' })
    await one.actions.handOver.fetchNow()
    expect(one.view().orders.told.join()).toContain('ORD-221')
    const sent = device.sent.length
    await until([one], () => device.sent.length > sent && isDone(one, 1))
    await until([one], () => one.view().left[0]?.answer === 'done')
    expect(await status()).toEqual(['cancelled'])
  }, 300_000)
})
