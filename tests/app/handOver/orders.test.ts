import { describe, expect, it } from 'vitest'
import { handOverDevice, handOverPage } from '../../support/handOverRig.ts'

const ADDRESS = 'https://fhir.example/r4'

/** A site whose server holds two patients and their orders; invented. */
async function withOrders() {
  const device = handOverDevice({ address: ADDRESS, orders: 'category=lab' })
  const { memory } = device.behind
  const create = async (type: string, resource: Record<string, unknown>): Promise<string> => {
    const { body } = await memory.create(type, { resourceType: type, ...resource })
    return String(body['id'])
  }
  const patient = (family: string, value: string) =>
    create('Patient', {
      identifier: [{ system: 'https://example.org/mrn', value }],
      name: [{ family, given: ['Pat'] }],
      birthDate: '1980-05-31',
      gender: 'female',
    })
  const order = (subject: string, number: string, code: string, change = {}) =>
    create('ServiceRequest', {
      ...{ status: 'active', intent: 'order' },
      category: [{ coding: [{ system: 'https://example.org/category', code: 'lab' }] }],
      subject: { reference: `Patient/${subject}` },
      requisition: { system: 'https://example.org/orders', value: number },
      code: { coding: [{ system: 'urn:stillhand:test', code }], text: code },
      ...change,
    })
  const one = await patient('Invented', 'MRN-1')
  const two = await patient('Madeup', 'MRN-2')
  const page = handOverPage(device)
  await page.app.start()
  await page.rest()
  await page.actions.handOver.switchOn()
  await page.rest()
  const listed = () =>
    [...page.state().day.rows].flatMap((row) =>
      row.kind === 'orders'
        ? row.group.items.map(({ order: each, status }) => ({
            number: each.order.orderNumber,
            tests: each.order.tests,
            status: status.status,
          }))
        : [],
    )
  const tasks = async () =>
    (await memory.search('Task?_count=100')).map(({ status, focus }) => [
      (focus as { reference: string }).reference,
      status,
    ])
  const passing = async (s: number): Promise<void> => {
    for (let i = 0; i < s; i += 5) {
      page.clock.advance(5000)
      await page.rest()
    }
  }
  const fetched = async (): Promise<void> => {
    await page.actions.handOver.fetchNow()
    await page.rest()
    await passing(25)
  }
  return { device, memory, page, one, two, order, listed, tasks, fetched, passing }
}

describe('orders of the record server', () => {
  it('come into the list once, each taken or refused by itself, and are told as received', async () => {
    const { one, two, order, page, listed, tasks, fetched } = await withOrders()
    const a = await order(one, 'O-1', 'cbc')
    const b = await order(one, 'O-1', 'bmp')
    await order(two, 'O-2', 'cbc', { intent: 'proposal' })
    const c = await order(two, 'O-3', 'cbc')
    await fetched()
    const numbers = listed().map(({ number, tests }) => [number, [...tests].toSorted()])
    expect(numbers.toSorted()).toEqual([
      ['O-1', ['bmp', 'cbc']],
      ['O-3', ['cbc']],
    ])
    expect(page.view().orders.told).toHaveLength(1)
    expect(page.view().orders.told[0]).toContain('O-2')
    // R4, task.html, value set task-status.
    const received = [a, b, c].map((id) => [`ServiceRequest/${id}`, 'received'])
    expect((await tasks()).toSorted()).toEqual(received.toSorted())
    await fetched()
    expect(listed()).toHaveLength(2)
  })

  it('that are canceled there are canceled here, with who and why, and told', async () => {
    const { one, order, page, memory, listed, fetched, tasks } = await withOrders()
    const a = await order(one, 'O-1', 'cbc')
    await fetched()
    const [request] = await memory.search(`ServiceRequest?_id=${a}`)
    await memory.call('PUT', `ServiceRequest/${a}`, { ...request, status: 'revoked' })
    await fetched()
    expect(listed()).toEqual([])
    expect(page.state().day.done[0]?.items[0]?.item).toMatchObject({
      standing: 'cancelled',
      by: 'Record server',
    })
    expect(page.view().orders.told.join()).toContain('revoked')
    expect(await tasks()).toEqual([[`ServiceRequest/${a}`, 'cancelled']])
  })

  it('lose the test that is canceled there and keep the others', async () => {
    const { one, order, memory, listed, fetched } = await withOrders()
    await order(one, 'O-1', 'cbc')
    const b = await order(one, 'O-1', 'bmp')
    await fetched()
    const [request] = await memory.search(`ServiceRequest?_id=${b}`)
    await memory.call('PUT', `ServiceRequest/${b}`, { ...request, status: 'revoked' })
    await fetched()
    expect(listed()).toMatchObject([{ number: 'O-1', tests: ['cbc'] }])
  })

  // R4, http.html#trules: a conditional reference, or a create, that several resources match fails the transaction.
  it('are answered by their address, where another request bears the same number and test', async () => {
    const { one, order, page, memory, fetched, passing } = await withOrders()
    const own = await order(one, 'O-1', 'cbc')
    await fetched()
    await order(one, 'O-1', 'cbc', { status: 'completed' })
    const ids = page.state().day.rows.flatMap((row) => (row.kind === 'orders' ? row.group.ids : []))
    page.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
    await page.actions.day.begin(ids)
    await page.actions.openDraw()
    await page.follow('closed')
    await page.actions.go({ name: 'home' })
    await passing(25)
    const record = page.view().rows.find(({ key }) => key.startsWith('draw/'))
    expect(record).toMatchObject({ state: 'handedOver' })
    const [procedure] = await memory.search('Procedure')
    const address = `ServiceRequest/${own}`
    expect(procedure?.['basedOn']).toMatchObject([{ reference: address }])
    const specimens = await memory.search('Specimen')
    expect(specimens.map(({ request }) => request)).toMatchObject([[{ reference: address }]])
    expect(await memory.search('ServiceRequest')).toHaveLength(2)
  })

  it('go back as canceled here with the reason, and what somebody puts off as on hold', async () => {
    const { one, two, order, page, memory, fetched, passing } = await withOrders()
    await order(one, 'O-1', 'cbc')
    await order(two, 'O-2', 'cbc')
    await fetched()
    const ids = page.state().day.rows.flatMap((row) => (row.kind === 'orders' ? row.group.ids : []))
    await page.actions.day.cancel([ids[0] ?? ''], 'Dr. Placeholder', 'ordered in error')
    await page.actions.day.putOff([ids[1] ?? ''], '', 'still eating')
    await passing(30)
    const found = await memory.search('Task?_count=10')
    const told = found.map(({ status, statusReason }) => [
      status,
      (statusReason as { text: string }).text,
    ])
    expect(told.toSorted()).toEqual([
      ['cancelled', expect.stringContaining('ordered in error') as string],
      ['on-hold', expect.stringContaining('still eating') as string],
    ])
  })

  it('are not asked for while it is paused, and a server that is not there is told', async () => {
    const { page, device, order, one, listed } = await withOrders()
    await order(one, 'O-1', 'cbc')
    await page.actions.handOver.pause(true)
    await page.actions.handOver.fetchNow()
    expect(listed()).toEqual([])
    await page.actions.handOver.pause(false)
    device.interfere = () => Promise.resolve({ kind: 'trouble', why: 'unreachable', issues: [] })
    await page.actions.handOver.fetchNow()
    await page.rest()
    expect(page.view().orders.trouble).toMatchObject({ why: 'unreachable' })
  })
})
