import { beforeEach, describe, expect, it } from 'vitest'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { fakePage } from '../../support/fakePage.ts'
import { fakeScreenWake } from '../../support/fakeScreenWake.ts'
import type { FakeSound } from '../../support/fakeSound.ts'

let rig: AppRig
const wake = fakeScreenWake()
let page = fakePage()

beforeEach(async () => {
  page = fakePage()
  rig = appRig({ screenWake: wake, page })
  await rig.app.start()
})

describe('the screen stays lit', () => {
  it('from the opening of a draw to its close, and no longer', async () => {
    await rig.plan()
    expect(wake.isHeld()).toBe(false)
    await rig.actions.openDraw()
    expect(wake.isHeld()).toBe(true)
    await rig.follow('closed')
    expect(wake.isHeld()).toBe(false)
  })

  it('on another screen while a clock of the draw runs, and only then', async () => {
    await rig.begin()
    await rig.actions.go({ name: 'home' })
    expect(rig.state().draw?.mainClock).toBeUndefined()
    expect(wake.isHeld()).toBe(false)
    const drawId = rig.state().draw?.drawId ?? ''
    await rig.actions.go({ name: 'draw', drawId })
    await rig.follow('needle')
    await rig.actions.go({ name: 'home' })
    expect(rig.state().draw?.mainClock?.kind).toBe('band')
    expect(wake.isHeld()).toBe(true)
  })

  it('is told of to the screens as it changes', () => {
    wake.say('refused')
    expect(rig.state().wake).toBe('refused')
    wake.say('held')
    expect(rig.state().wake).toBe('held')
  })
})

describe('a page that was frozen with the band on', () => {
  it('sounds the alarm in the moment it runs again, before its next beat', async () => {
    await rig.begin()
    await rig.follow('needle')
    const { chimes } = rig.deps.sound as FakeSound
    chimes.length = 0
    rig.clock.freeze(70_000)
    await rig.settle()
    expect(chimes).not.toContain('timeUp')
    page.comeBack()
    await rig.settle()
    expect(chimes).toContain('timeUp')
    expect(rig.state().draw?.severe?.kind).toBe('bandOver')
    const { entries } = await rig.stored(rig.state().draw?.drawId ?? '')
    const away = entries.find(({ event }) => event.type === 'awayNoticed')?.event
    expect(away).toMatchObject({ bandWasOn: true })
  })

  it('tries once more to save what is not saved before it is frozen or left', async () => {
    const drawId = await rig.begin()
    const append = rig.deps.logStore.append.bind(rig.deps.logStore)
    let fails = true
    rig.deps.logStore.append = async (id, entries) => {
      if (fails) throw new Error('The disk is busy.')
      await append(id, entries)
    }
    await rig.touch('confirmPatient')
    await rig.settle()
    const before = (await rig.stored(drawId)).entries.length
    fails = false
    page.leave()
    await rig.settle()
    expect((await rig.stored(drawId)).entries.length).toBeGreaterThan(before)
    expect(rig.state().unsaved).toBeUndefined()
  })
})
