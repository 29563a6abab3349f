import { expect, it, vi } from 'vitest'
import { appRig } from '../../support/appRig.ts'
import { clinicDevice } from '../../support/clinicRig.ts'
import { twoChairs } from '../../support/twoChairs.ts'

it('a draw that is taken over while much is still to come can be taken back through the hub', async () => {
  const { a, b } = await twoChairs()
  const { clinic } = a.device
  const drawId = await a.begin({ fullName: 'Anna First' })
  await a.pass(40)
  await b.pass(5)
  const known = clinic.view.bind(clinic)
  clinic.view = () => {
    const view = known()
    return view && { ...view, coming_n: 5000 }
  }
  await a.pass(1)
  b.actions.sayWhoDraws({ name: 'Bea Sample', initials: 'BS', siteName: '' })
  await b.actions.go({ name: 'draw', drawId })
  await b.actions.takeOver()
  await b.pass(2)
  expect(a.state().draw?.elsewhere).toBeDefined()
  const asked = vi.spyOn(clinic, 'takeOver')
  a.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
  await a.actions.takeOver()
  await a.pass(6)
  expect(asked).toHaveBeenCalledTimes(1)
  expect(clinic.view()?.aside).toEqual([])
})

it('a device that took a draw over is not called one of the same prefix, also where an old hub lost who began it', async () => {
  const { a, b, hub, clock } = await twoChairs()
  const old = hub.copy()
  const drawId = await a.begin({ fullName: 'Anna First' })
  await a.pass(5)
  b.actions.sayWhoDraws({ name: 'Bea Sample', initials: 'BS', siteName: '' })
  await b.pass(5)
  await b.actions.go({ name: 'draw', drawId })
  await b.actions.takeOver()
  await b.pass(8)
  await a.device.hub.stop()
  await a.settle()
  hub.restore(old)
  await b.pass(30)
  const device = clinicDevice('a', hub.join('a'), clock, undefined, a.device)
  const { logStore, dayStore, clinic } = device
  const again = appRig({ ...a.deps, logStore, dayStore, clinic }, clock)
  await again.app.start()
  await again.pass(30)
  expect(clinic.draws().map((draw) => draw.drawId)).toEqual([drawId])
  expect(again.state().clinic?.samePrefix).toBeUndefined()
})
