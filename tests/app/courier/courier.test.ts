import { describe, expect, it } from 'vitest'
import { isHere, type PackSpecimen } from '../../../src/core/courier/packSpecimen.ts'
import type { PackSaid } from '../../../src/app/view/courierView.ts'
import { twoPages } from '../../support/twoPages.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'

const COURIER = 'Kim Carrier'

/** Draws a blood count and a coagulation test of an invented patient, closed. */
async function drawn(rig: AppRig): Promise<string> {
  const drawId = await rig.begin({ tests: ['cbc', 'pt'] })
  await rig.follow('closed')
  await rig.actions.go({ name: 'courier' })
  return drawId
}

const waiting = ({ state }: AppRig): readonly PackSpecimen[] =>
  state().courier.specimens.filter(isHere)

const give = (
  { actions }: AppRig,
  specimens: readonly PackSpecimen[],
  missing: readonly string[] = [],
): Promise<void> =>
  actions.courier.handOver({
    specimens,
    courier: COURIER,
    laboratory: undefined,
    missing,
    missingSaidBy: missing.length > 0 ? 'Ada Sample' : '',
  })

async function events(rig: AppRig, drawId: string, type: string) {
  return (await rig.stored(drawId)).entries
    .map(({ event }) => event)
    .filter((each) => each.type === type)
}

describe('a pack of which is said', () => {
  it('how many it has, that it is complete, and that this was wrong, is counted so far, pack by pack', async () => {
    const rig = appRig()
    await rig.app.start()
    expect(rig.actions.courier.packSaid('complete')).toBeUndefined()
    await drawn(rig)
    const all = waiting(rig)
    const said = (of: PackSaid): number | undefined => rig.actions.courier.packSaid(of)
    const counted = (): number => rig.state().count.counted.size
    const first = said('number') ?? 0
    expect(counted()).toBe(0)
    expect(said('takeBack')).toBeUndefined()
    expect(said('short')).toBe(first)
    expect(counted()).toBe(0)
    expect(said('complete')).toBe(first)
    expect(counted()).toBe(first)
    expect(said('takeBack')).toBe(first)
    // Once is enough: what is said again is said of something else.
    expect(said('takeBack')).toBeUndefined()
    expect(counted()).toBe(0)
    let n = 0
    while (said('complete') !== undefined) n++
    expect(n).toBeGreaterThan(0)
    expect(counted()).toBe(all.length)
    // Nothing of it is in any record.
    expect(rig.state().courier.sent).toEqual([])
  })

  it('a touch after it is a count of its own: what was said before is not taken back', async () => {
    const rig = appRig()
    await rig.app.start()
    await drawn(rig)
    rig.actions.courier.packSaid('complete')
    const { counted } = rig.state().count
    rig.actions.courier.count(counted)
    expect(rig.actions.courier.packSaid('takeBack')).toBeUndefined()
    expect(rig.state().count.counted).toBe(counted)
  })
})

describe('handing over', () => {
  it('stands in the record of each tube with courier, pack and act, and once where pressed twice', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    const all = waiting(rig)
    expect(all).toHaveLength(2)
    await Promise.all([give(rig, all), give(rig, all)])
    await give(rig, all)
    const took = await events(rig, drawId, 'courierTook')
    expect(took).toHaveLength(1)
    expect(took[0]).toMatchObject({ courier: COURIER, tubeIds: all.map(({ tubeId }) => tubeId) })
    expect(waiting(rig)).toEqual([])
    expect(rig.state().courier.sent).toHaveLength(1)
    expect(rig.state().courier.sent[0]?.pack).toMatch(/^KM47-20261125-P1[A-Z]$/)
    expect(rig.state().trouble).toMatch(/had left already/)
  })

  it('goes without a missing tube by somebody’s word; found, it goes with the next', async () => {
    const rig = appRig()
    await rig.app.start()
    await drawn(rig)
    const [first, second] = waiting(rig)
    if (!first || !second) throw new Error('Two tubes wait.')
    await give(rig, [first], [second.number])
    expect(rig.state().courier.sent[0]).toMatchObject({
      missing: [second.number],
      missingSaidBy: 'Ada Sample',
      specimens: [{ number: first.number }],
    })
    expect(waiting(rig).map(({ number }) => number)).toEqual([second.number])
    await rig.pass(60)
    await give(rig, waiting(rig))
    const [later, earlier] = rig.state().courier.sent
    expect(later?.specimens.map(({ number }) => number)).toEqual([second.number])
    expect(later?.missing).toEqual([])
    expect(later?.pack).not.toBe(earlier?.pack)
  })

  it('of two pages counts once: what the other handed over is told and not sent again', async () => {
    const [mine, theirs] = twoPages()
    await mine.app.start()
    const drawId = await drawn(mine)
    await theirs.app.start()
    await theirs.actions.go({ name: 'courier' })
    await give(mine, waiting(mine))
    await give(theirs, waiting(theirs))
    expect(await events(mine, drawId, 'courierTook')).toHaveLength(1)
    expect(theirs.state().trouble).toMatch(/had left already/)
    expect(theirs.state().courier.sent).toHaveLength(1)
  })

  it('said in error is taken back: the tubes wait again, and a reload does not send them anew', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    await give(rig, waiting(rig))
    const [pack] = rig.state().courier.sent
    if (!pack) throw new Error('Nothing was sent.')
    await rig.actions.courier.takeBack(pack)
    expect(waiting(rig)).toHaveLength(2)
    const again = appRig(rig.deps, rig.clock)
    await again.app.start()
    await again.actions.go({ name: 'courier' })
    expect(waiting(again)).toHaveLength(2)
    expect(await events(again, drawId, 'courierTook')).toHaveLength(1)
  })

  it('brought by oneself stands in the record with where and to whom, once, and can be taken back', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    const whom = 'Robin Example'
    const brought = { specimens: waiting(rig), where: 'Front desk', whom, temperature_C: 4.5 }
    await Promise.all([rig.actions.courier.dropOff(brought), rig.actions.courier.dropOff(brought)])
    const left = await events(rig, drawId, 'droppedOff')
    expect(left).toHaveLength(1)
    expect(left[0]).toMatchObject({ to: 'Front desk, to Robin Example, 4.5 °C on arrival' })
    expect(waiting(rig)).toEqual([])
    const again = appRig(rig.deps, rig.clock)
    await again.app.start()
    await again.actions.go({ name: 'courier' })
    const [drop] = again.state().courier.dropped
    if (!drop) throw new Error('Nothing was dropped off.')
    expect(drop.specimens).toHaveLength(2)
    await again.actions.courier.takeBack(drop)
    expect(again.state().courier.dropped).toEqual([])
    expect(waiting(again)).toHaveLength(2)
  })

  it('taken back twice is under two names, and the tubes wait again each time', async () => {
    const rig = appRig()
    await rig.app.start()
    await drawn(rig)
    const names: string[] = []
    for (let n = 0; n < 2; n++) {
      await rig.pass(60)
      await give(rig, waiting(rig))
      const [pack] = rig.state().courier.sent
      if (!pack) throw new Error('Nothing was sent.')
      names.push(pack.pack)
      await rig.actions.courier.takeBack(pack)
      expect(waiting(rig)).toHaveLength(2)
    }
    expect(new Set(names).size).toBe(2)
  })

  it('is charted after a reload where the page was lost between the day and the draw', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    const all = waiting(rig)
    const append = rig.deps.logStore.append.bind(rig.deps.logStore)
    // The page dies once the day has the act: nothing more is written.
    rig.deps.logStore.append = () => new Promise(() => undefined)
    void give(rig, all)
    await rig.pass(1)
    rig.deps.logStore.append = append
    const again = appRig(rig.deps, rig.clock)
    await again.app.start()
    await again.actions.go({ name: 'courier' })
    await again.pass(1)
    expect(await events(again, drawId, 'courierTook')).toHaveLength(1)
    expect(waiting(again)).toEqual([])
    await again.actions.go({ name: 'courier' })
    expect(await events(again, drawId, 'courierTook')).toHaveLength(1)
  })

  it('taken back before a draw had charted it is charted there by nobody, also after a reload', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawIds = [await drawn(rig)]
    drawIds.push(await drawn(rig))
    const all = waiting(rig)
    expect(new Set(all.map(({ drawId }) => drawId))).toEqual(new Set(drawIds))
    const append = rig.deps.logStore.append.bind(rig.deps.logStore)
    // The page dies once the first of the two draws has the act.
    rig.deps.logStore.append = async (drawId, entries) =>
      drawId === all[0]?.drawId ? append(drawId, entries) : new Promise<never>(() => undefined)
    void give(rig, all)
    await rig.pass(1)
    rig.deps.logStore.append = append
    const again = appRig(rig.deps, rig.clock)
    // The next page knows what left by the day, and takes it back before it charts the rest.
    await again.app.start()
    const [act] = (await rig.deps.dayStore.load('2026-11-25')).entries.flatMap(({ event }) =>
      event.type === 'benchActed' ? [event.id] : [],
    )
    if (act === undefined) throw new Error('The day has no act.')
    await again.actions.courier.takeBack({ act, specimens: all.slice(0, 1) })
    await again.pass(1)
    for (const page of [again, appRig(rig.deps, rig.clock)]) {
      if (page !== again) await page.app.start()
      await page.actions.go({ name: 'courier' })
      await page.pass(1)
      expect(waiting(page)).toHaveLength(4)
      expect(page.state().courier.sent).toEqual([])
    }
  })

  it('has what the laboratory says in the record: received, and rejected with its reason', async () => {
    // Reasons are codes of HL7 version 2 table 0490; RH is hemolyzed.
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    await give(rig, waiting(rig))
    const [first, second] = rig.state().courier.sent[0]?.specimens ?? []
    if (!first || !second) throw new Error('Two tubes were sent.')
    await rig.actions.courier.received([first], '')
    await rig.actions.courier.rejected([second], 'RH', 'pink')
    expect(await events(rig, drawId, 'labReceived')).toMatchObject([{ tubeIds: [first.tubeId] }])
    expect(await events(rig, drawId, 'labRejected')).toMatchObject([
      { tubeIds: [second.tubeId], reason: 'RH', note: 'pink' },
    ])
    expect(rig.state().courier.sent[0]?.specimens[1]?.way.rejected).toMatchObject({ reason: 'RH' })
  })

  it('stands on the note and in the bundle of the draw, on its date', async () => {
    const rig = appRig()
    await rig.app.start()
    const drawId = await drawn(rig)
    // A day and an hour later: the note says the day, too.
    rig.clock.advance(25 * 3_600_000)
    await give(rig, waiting(rig))
    const { text: note = '' } = (await rig.actions.exportRecord(drawId, 'note')) ?? {}
    expect(note).toMatch(
      /Handed over to the courier: 10:00:00 on 26 Nov 2026, Kim Carrier, KM47-20261126-P1/,
    )
    const { text: bundle = '' } = (await rig.actions.exportRecord(drawId, 'fhir')) ?? {}
    expect(bundle).toContain('2026-11-26T10:00:00')
    expect(bundle).toContain(COURIER)
  })
})
