import { expect, it } from 'vitest'
import { clinicDevice } from '../../support/clinicRig.ts'
import { trusting } from '../../support/clinicTrust.ts'
import { twoChairs } from '../../support/twoChairs.ts'

// Common practice, no source: a desk cuts a lost tablet off that the hub still lets in for a while.
it('the draw of a device that was cut off and goes on writing is taken over from where it was cut off', async () => {
  const revoked: Record<string, number> = {}
  const trust = trusting(['a', 'b', 'c'], revoked)
  const { a, b, hub, clock } = await twoChairs('BB33', trust)
  const drawId = await a.begin()
  await a.follow('cleanse')
  await a.pass(4)
  const counting = (await a.stored(drawId)).entries.length
  revoked['a'] = clock.read().wall_ms
  b.device.clinic.remember()
  await a.pass(1)
  await a.follow('needle')
  await a.pass(4)
  const late = (await a.stored(drawId)).entries.slice(counting).map(({ hash }) => hash)
  expect(late.length).toBeGreaterThan(0)
  expect(b.device.clinic.load(drawId)?.entries).toHaveLength(counting)
  expect(b.state().clinic?.notTaken).toMatchObject([{ device: 'A', why: 'revoked' }])

  b.actions.sayWhoDraws({ name: 'Ben Sample', initials: 'BS', siteName: '' })
  await b.actions.go({ name: 'draw', drawId })
  await b.actions.takeOver()
  expect(b.state().trouble).toBeUndefined()
  await b.follow('closed')
  await b.pass(8)
  const { entries } = await b.stored(drawId)
  expect(entries.some(({ hash }) => late.includes(hash))).toBe(false)
  // A device that reads all of it later finds the same.
  const third = clinicDevice('c', hub.join('c'), clock, trust)
  await third.clinic.start()
  await b.pass(8)
  expect(third.clinic.load(drawId)?.entries).toEqual(entries)
})
