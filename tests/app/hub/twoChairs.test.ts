import { describe, expect, it, vi } from 'vitest'
import words from '../../../src/data/en/words.json' with { type: 'json' }
import { isHere } from '../../../src/core/courier/packSpecimen.ts'
import { HubError } from '../../../src/ports/hubFault.ts'
import { appRig } from '../../support/appRig.ts'
import { atHub, list, statusOn, twoChairs } from '../../support/twoChairs.ts'

describe('two chairs of one clinic', () => {
  it('a device alone shows nothing of it', async () => {
    const rig = appRig()
    await rig.app.start()
    expect(rig.state().clinic).toBeUndefined()
    expect(rig.state().others).toEqual([])
  })

  it('an order listed at one is on the list of the other, and is drawn once', async () => {
    const { a, b } = await twoChairs()
    expect(a.state().clinic).toMatchObject({ link: 'connected', waiting_n: 0 })
    const order = await list(a)
    await b.pass(3)
    expect(statusOn(b)).toBe('waiting')
    await b.actions.day.call([order])
    await a.pass(3)
    expect(statusOn(a)).toBe('called')

    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.day.begin([order])
    await b.actions.openDraw()
    await a.pass(3)
    expect(statusOn(a)).toBe('inChair')
    expect(a.state().others).toMatchObject([{ deviceName: 'B', closed: false, listed: [order] }])
    await a.actions.day.begin([order])
    expect(a.state().trouble).toMatch(/open already/)
  })

  it('of two that begin one order at once, one is refused and told who has it', async () => {
    const { a, b, hub } = await twoChairs()
    const order = await list(a)
    await b.pass(3)
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await a.actions.day.begin([order])
    await b.actions.day.begin([order])
    // Neither hears of the other before both have pressed.
    hub.setLag(60_000)
    await Promise.all([a.actions.openDraw(), b.actions.openDraw()])
    const drawing = [a, b].filter((chair) => chair.state().screen.name === 'draw')
    const refused = [a, b].filter((chair) => chair.state().screen.name !== 'draw')
    expect(drawing).toHaveLength(1)
    expect(refused[0]?.state().trouble).toMatch(/^[AB] is just beginning this draw/)
  })

  it('a draw goes on while the hub is away, tells how much waits, and is there whole afterwards', async () => {
    const { a, b, hub } = await twoChairs()
    hub.setUp(false)
    const drawId = await a.begin()
    await a.follow('closed')
    await a.pass(4)
    expect(a.state().draw?.closed).toBeDefined()
    const { entries } = await a.stored(drawId)
    expect(a.state().clinic).toMatchObject({ link: 'alone', waiting_n: entries.length })
    hub.setUp(true)
    await a.pass(8)
    expect(a.state().clinic).toMatchObject({ link: 'connected', waiting_n: 0 })
    expect(await atHub(a, drawId)).toMatchObject({ ok: true, value: { entries } })
    expect(b.device.clinic.load(drawId)?.entries).toEqual(entries)
  })

  it('an order that both draw while alone is told on both lists, until then each list is its own', async () => {
    const { a, b, hub } = await twoChairs()
    const order = await list(a)
    await b.pass(3)
    hub.setUp(false)
    await a.pass(1)
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    for (const chair of [a, b]) {
      await chair.actions.day.begin([order])
      await chair.actions.openDraw()
      await chair.follow('closed')
      await chair.actions.go({ name: 'home' })
      await chair.pass(3)
      expect(chair.state().day.doubled).toEqual([])
    }
    hub.setUp(true)
    await a.pass(10)
    const both = [{ order, orderNumber: 'O-1' }]
    expect(a.state().day.doubled).toMatchObject(both)
    expect(b.state().day.doubled).toMatchObject(both)
    expect(a.state().day.doubled[0]?.drawIds.map((id) => id.slice(0, 2))).toEqual(['AA', 'BB'])
  })

  it('the hub comes back with an old disk: what it lost is sent again', async () => {
    const { a, hub } = await twoChairs()
    const old = hub.copy()
    const drawId = await a.begin()
    await a.follow('closed')
    await a.pass(4)
    hub.restore(old)
    await a.pass(8)
    const { entries } = await a.stored(drawId)
    expect(await atHub(a, drawId)).toMatchObject({ ok: true, value: { entries } })
  })

  it('another chair looks on, takes over by name, and the first one only looks on from there', async () => {
    const { a, b } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('cleanse')
    await b.pass(4)
    await b.actions.go({ name: 'draw', drawId })
    await b.pass(1)
    expect(b.state().draw).toMatchObject({
      drawId,
      elsewhere: { text: expect.stringMatching(/^A runs/) as string },
    })
    await b.actions.takeOver()
    expect(b.state().trouble).toMatch(/who draws/)
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.takeOver()
    await b.pass(4)
    expect(b.state().draw?.elsewhere).toBeUndefined()
    // That it could not be taken over is not so any more.
    expect(b.state().trouble).toBeUndefined()
    expect(a.state().draw?.elsewhere?.text).toMatch(/^B has taken/)
    await b.follow('closed')
    await b.pass(6)
    const { entries } = await b.stored(drawId)
    const said = entries.flatMap(({ event }) => (event.type === 'noteAdded' ? [event.text] : []))
    expect(said).toContain('The draw was handed over from A to B: what follows was recorded there.')
    expect(entries.some(({ event }) => event.type === 'collectorChanged')).toBe(true)
    expect(await atHub(a, drawId)).toMatchObject({ ok: true, value: { entries } })
    expect(a.device.clinic.load(drawId)?.entries).toEqual(entries)
  })

  it('over midnight an order of the evening stays on both lists, and what is said of it the next day is heard', async () => {
    const { a, b, clock } = await twoChairs()
    const order = await list(a)
    await b.pass(3)
    clock.advance(20 * 3_600_000)
    await a.pass(5)
    expect([a, b].map(statusOn)).toEqual(['waiting', 'waiting'])
    await b.actions.day.call([order])
    await a.pass(3)
    expect([a, b].map(statusOn)).toEqual(['called', 'called'])
    const days = [...(await a.device.dayStore.ends('')), ...(await b.device.dayStore.ends(''))]
    expect(days.map(({ day }) => day)).toEqual(['2026-11-25', '2026-11-26'])
  })

  it('two benches that do the same act while neither can ask: the record stays whole, nobody’s act stands in it twice, no bench goes on telling of it', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin({ tests: ['cbc'] })
    await a.follow('closed')
    await b.pass(5)
    const tubeIds = [b.state().bench.rows[0]?.specimen.tubeId ?? '']
    hub.setUp(false)
    const deed = { type: 'stored' as const, where: 'room' as const }
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.bench.act(deed, [{ drawId, tubeIds }])
    await a.pass(2)
    await a.actions.bench.act(deed, [{ drawId, tubeIds }])
    hub.setUp(true)
    await a.pass(10)
    const { entries } = await a.stored(drawId)
    const stored = entries.filter(({ event }) => event.type === 'stored')
    expect(new Set(stored.map(({ by }) => by)).size).toBe(stored.length)
    expect(stored.length).toBeGreaterThan(0)
    expect(await atHub(b, drawId)).toMatchObject({ ok: true, value: { entries } })
    // Whatever the record says, no bench goes on telling that something is uncharted.
    expect([a, b].map((chair) => chair.state().bench.uncharted)).toEqual([[], []])
  })

  it('a take-over whose answer is lost: it is told as not sure, and the draw goes on at one of the two, whole', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('cleanse')
    await b.pass(4)
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.go({ name: 'draw', drawId })
    hub.setLag(60_000)
    const append = b.device.hub.append.bind(b.device.hub)
    vi.spyOn(b.device.hub, 'append').mockImplementationOnce(async (...asked) => {
      await append(...asked)
      throw new HubError('unreachable', 'The answer was lost')
    })
    await b.actions.takeOver()
    expect(b.state().trouble).toBeDefined()
    hub.setLag(0)
    await a.pass(8)
    // The hub was told: the first chair looks on, and the draw is the second one's.
    expect(a.state().draw?.elsewhere?.text).toMatch(/^B has taken/)
    await b.actions.go({ name: 'home' })
    await b.actions.go({ name: 'draw', drawId })
    await b.pass(1)
    expect(b.state().draw?.elsewhere).toBeUndefined()
    await b.follow('closed')
    await b.pass(8)
    const { entries } = await b.stored(drawId)
    expect(await atHub(a, drawId)).toMatchObject({ ok: true, value: { entries } })
    expect(a.device.clinic.load(drawId)?.entries).toEqual(entries)
  })

  it('a hub that takes what it is asked and never answers holds no draw up, and has all of it once it answers', async () => {
    const { a, b, hub } = await twoChairs()
    hub.setHanging(true)
    const drawId = await a.begin()
    await a.follow('closed')
    await a.pass(4)
    const { entries } = await a.stored(drawId)
    expect(a.state().draw?.closed).toBeDefined()
    expect(a.state().clinic).toMatchObject({ waiting_n: entries.length })
    hub.setHanging(false)
    await a.pass(12)
    expect(a.state().clinic).toMatchObject({ waiting_n: 0 })
    expect(b.device.clinic.load(drawId)?.entries).toEqual(entries)
  })

  it('what the first chair recorded behind the hand-over, alone, is in no record and is told in words', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('cleanse')
    await a.pass(4)
    hub.refuse('a', 'credentials')
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.go({ name: 'draw', drawId })
    await b.actions.takeOver()
    await a.follow('needle')
    await b.pass(4)
    const own = (await a.stored(drawId)).entries
    hub.refuse('a', undefined)
    await a.pass(8)
    const [aside] = a.state().clinic?.aside ?? []
    expect(aside).toMatchObject({ drawId, writer: 'B' })
    expect(aside?.entries_n).toBeGreaterThan(0)
    expect(own.slice((aside?.from_seq ?? 1) - 1)).toEqual(aside?.entries)
    const record = (await b.stored(drawId)).entries.map(({ hash }) => hash)
    expect(own.slice((aside?.from_seq ?? 1) - 1).some(({ hash }) => record.includes(hash))).toBe(
      false,
    )
  })

  it('what was closed behind the hand-over, alone, is told where it looks complete', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('cleanse')
    await a.pass(4)
    hub.refuse('a', 'credentials')
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.go({ name: 'draw', drawId })
    await b.actions.takeOver()
    await a.follow('closed')
    await b.pass(4)
    hub.refuse('a', undefined)
    await a.pass(8)
    expect(a.state().screen).toMatchObject({ name: 'draw', drawId })
    expect(a.state().trouble).toMatch(/^B took this draw over .* Settle with B which tubes/)
    // It is said once, and can be put away.
    a.actions.dismissTrouble()
    await list(b)
    await a.pass(4)
    expect(a.state().trouble).toBeUndefined()
  })

  it('the same person who takes a draw over at the next chair hands over to nobody', async () => {
    const { a, b } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('cleanse')
    await a.pass(4)
    const { collectorName: name, collectorInitials: initials } = a.state().settings
    b.actions.sayWhoDraws({ name, initials, siteName: '' })
    await b.actions.go({ name: 'draw', drawId })
    await b.actions.takeOver()
    await b.pass(4)
    const { entries } = await b.stored(drawId)
    expect(entries.some(({ event }) => event.type === 'collectorChanged')).toBe(false)
    expect(JSON.stringify(b.state().draw)).not.toContain(words.impossible.alreadyDone)
  })

  it('an act at the bench on a draw of another chair is charted there, once, and shown meanwhile', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin({ tests: ['cbc'] })
    await a.follow('closed')
    await b.pass(5)
    const [row] = b.state().bench.rows
    expect(row?.specimen.drawId).toBe(drawId)
    const tubeIds = [row?.specimen.tubeId ?? '']
    hub.refuse('a', 'credentials')
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.bench.act({ type: 'stored', where: 'room' }, [{ drawId, tubeIds }])
    await b.pass(2)
    expect(b.state().bench.uncharted).toEqual([`${drawId} ${tubeIds[0] ?? ''}`])
    hub.refuse('a', undefined)
    await a.pass(8)
    const stored = (await a.stored(drawId)).entries.filter(({ event }) => event.type === 'stored')
    expect(stored).toHaveLength(1)
    // Charted by the chair that has the draw, in the name of who did it.
    expect(stored[0]?.by).toBe('ben-sample-bs')
    await b.pass(6)
    expect(b.state().bench.uncharted).toEqual([])
    expect(b.state().bench.rows[0]?.specimen.way.stored?.where).toBe('room')
  })

  it('a courier takes tubes of both chairs at the desk: in one pack, charted once by each chair, by who gave them', async () => {
    const { a, b } = await twoChairs()
    const own = await b.begin({ tests: ['cbc'] })
    await b.follow('closed')
    const far = await a.begin({ tests: ['cbc'] })
    await a.follow('closed')
    await b.pass(8)
    b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
    await b.actions.courier.refresh()
    const { specimens } = b.state().courier
    expect([...new Set(specimens.map(({ drawId }) => drawId))].sort()).toEqual([far, own].sort())
    const pack = { courier: 'Kim Carrier', laboratory: undefined, missing: [], missingSaidBy: '' }
    await b.actions.courier.handOver({ ...pack, specimens })
    // At the desk they have left at once, also before the chair has charted it.
    expect(b.state().courier.specimens.filter(isHere)).toEqual([])
    expect(b.state().courier.sent[0]?.specimens.length).toBe(specimens.length)
    // The other desk, with the same tubes in sight before, hands over nothing twice.
    await a.pass(8)
    await a.actions.courier.refresh()
    expect(a.state().courier.specimens.filter(isHere)).toEqual([])
    await a.actions.courier.handOver({ ...pack, specimens })
    await b.pass(8)
    for (const [chair, drawId] of [
      [a, far],
      [b, own],
    ] as const) {
      const took = (await chair.stored(drawId)).entries.filter(
        ({ event }) => event.type === 'courierTook',
      )
      expect(took.map(({ by }) => by)).toEqual(['ben-sample-bs'])
    }
    // Taken back at the desk, it is taken back in both, in the name of who said so.
    const [sent] = b.state().courier.sent
    if (!sent) throw new Error('Nothing sent')
    await b.actions.courier.takeBack(sent)
    await a.pass(8)
    await b.actions.courier.refresh()
    expect(b.state().courier.specimens.filter(isHere).length).toBe(specimens.length)
  })

  it('the same act at two benches at once is done by one, and the other is told', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin({ tests: ['cbc'] })
    await a.follow('closed')
    await b.pass(5)
    const tubeIds = [b.state().bench.rows[0]?.specimen.tubeId ?? '']
    hub.setLag(60_000)
    const deed = { type: 'stored' as const, where: 'room' as const }
    await Promise.all([
      a.actions.bench.act(deed, [{ drawId, tubeIds }]),
      b.actions.bench.act(deed, [{ drawId, tubeIds }]),
    ])
    hub.setLag(0)
    await a.pass(8)
    const stored = (await a.stored(drawId)).entries.filter(({ event }) => event.type === 'stored')
    expect(stored).toHaveLength(1)
    const told = [a, b].map((chair) => chair.state().trouble ?? '')
    expect(told.filter((text) => /has just done this/.test(text))).toHaveLength(1)
  })
})
