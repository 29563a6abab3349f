import { expect, it } from 'vitest'
import { createMemoryClinic } from '../../../src/adapters/hub/memory/memoryClinic.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { clinicDevice } from '../../support/clinicRig.ts'
import { handOverDevice, handOverPage } from '../../support/handOverRig.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'

const ADDRESS = 'https://fhir.example/r4'

/** Two devices of one clinic, each with a record server that notes what it is sent; a page of one may begin anew. */
async function two() {
  const clock = createSimulatedClock({
    ...{ boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 },
  })
  const hub = createMemoryClinic(clock)
  const chair = async (id: string, prefix: string) => {
    const device = handOverDevice({ address: ADDRESS, orders: 'category=lab' })
    const bodies: string[] = []
    device.interfere = (_method, body) => {
      // What is asked for comes this way too.
      if (body.startsWith('{')) bodies.push(body)
      return Promise.resolve(undefined)
    }
    const open = async (kept?: Parameters<typeof clinicDevice>[4], isRead?: () => boolean) => {
      const member = clinicDevice(id, hub.join(id), clock, undefined, kept)
      const { logStore, dayStore } = member
      const clinic = isRead ? { ...member.clinic, isRead } : member.clinic
      const own = { logStore, dayStore, clinic, newDevicePrefix: () => prefix }
      const page = handOverPage(device, own, clock)
      await page.app.start()
      return { page, member }
    }
    const { page, member } = await open()
    await page.actions.handOver.switchOn()
    await page.rest()
    page.actions.sayWhoDraws({ name: `Nurse ${id}`, initials: id.toUpperCase(), siteName: '' })
    const again = async (): Promise<void> => {
      const anew = await open(member)
      await anew.page.rest()
      await anew.page.pass(20)
    }
    const openSlowly = async (isRead: () => boolean) => (await open(member, isRead)).page
    return { ...page, device, bodies, again, openSlowly }
  }
  return { a: await chair('a', 'AA22'), b: await chair('b', 'BB33'), hub }
}

// Common practice, no source: one record of a draw, by who finished it.
it('a draw that was closed here behind a take-over is handed over by the other device alone, also after a restart', async () => {
  const { a, b, hub } = await two()
  const drawId = await a.begin({ recordNumber: 'MRN-1', orderNumber: 'O-1' })
  await a.follow('cleanse')
  await a.pass(4)
  hub.refuse('a', 'credentials')
  await b.actions.go({ name: 'draw', drawId })
  await b.actions.takeOver()
  await a.actions.handOver.pause(true)
  await a.follow('closed')
  await b.follow('closed')
  await b.pass(8)
  hub.refuse('a', undefined)
  await a.pass(8)
  await a.actions.handOver.pause(false)
  await a.pass(20)
  await a.again()
  expect(a.device.sent.filter((method) => method === 'transact')).toEqual([])
  expect(b.device.sent.filter((method) => method === 'transact')).toEqual(['transact'])
})

it('the Task of an order that another chair drew does not go back at the next start', async () => {
  const { a, b } = await two()
  const { memory } = a.device.behind
  const create = async (resourceType: string, resource: object): Promise<string> =>
    String((await memory.create(resourceType, { resourceType, ...resource })).body['id'])
  const patient = await create('Patient', {
    identifier: [{ system: 'https://example.org/mrn', value: 'MRN-1' }],
    name: [{ family: 'Invented', given: ['Pat'] }],
    ...{ birthDate: '1980-05-31', gender: 'female' },
  })
  await create('ServiceRequest', {
    ...{ status: 'active', intent: 'order', subject: { reference: `Patient/${patient}` } },
    category: [{ coding: [{ system: 'https://example.org/category', code: 'lab' }] }],
    requisition: { system: 'https://example.org/orders', value: 'O-1' },
    code: { coding: [{ system: 'urn:stillhand:test', code: 'cbc' }], text: 'cbc' },
  })
  await a.actions.handOver.fetchNow()
  await a.rest()
  await a.pass(10)
  await b.pass(5)
  const [row] = b.state().day.rows
  if (row?.kind !== 'orders') throw new Error('It is not on the list.')
  await b.actions.day.begin(row.group.ids)
  await b.actions.openDraw()
  await b.follow('closed')
  await b.actions.go({ name: 'home' })
  await b.pass(30)
  await a.pass(60)
  const told = (): readonly unknown[] =>
    a.bodies
      .map((body) => JSON.parse(body) as Record<string, unknown>)
      .flatMap(({ resourceType, status }) => (resourceType === 'Task' ? [status] : []))
  expect(told().at(-1)).toBe('completed')
  const before_n = told().length
  await a.again()
  expect(told().slice(before_n)).toEqual([])
})

it('says that it waits as long as what the others have drawn was not read', async () => {
  const { a, b } = await two()
  let isRead = false
  const anew = await a.openSlowly(() => isRead)
  await anew.pass(30)
  expect(anew.state().handOver.state).toBe('reading')
  isRead = true
  await b.begin({ recordNumber: 'MRN-2', orderNumber: 'O-2' })
  await anew.pass(10)
  expect(anew.state().handOver.state).toBe('idle')
})
