import { beforeEach, describe, expect, it, vi } from 'vitest'
import { PIN_WRONG_TEXT, texts } from '../../support/lockTexts.ts'
import type { AppRig } from '../../support/appRig.ts'
import type { FakePage } from '../../support/fakePage.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
import { quiet, tablet, type Tablet } from '../../support/vaultRig.ts'

const PIN = '482913'
let device: Tablet
let page: AppRig

const chimes = (rig: AppRig): string[] => (rig.deps.sound as FakeSound).chimes
const use = (rig: AppRig): void => (rig.deps.page as FakePage).use()
/** A draw of that patient, closed. */
async function record(rig: AppRig, fullName: string): Promise<string> {
  const drawId = await rig.begin({ fullName })
  await rig.close()
  await rig.actions.go({ name: 'home' })
  return drawId
}
async function withPin(rig: AppRig): Promise<string> {
  await rig.actions.setPin(PIN)
  await quiet()
  const { recoveryKey } = rig.state().lock
  rig.actions.keptRecovery()
  return recoveryKey ?? ''
}
const names = (rig: AppRig): string[] => rig.state().draws.map(({ patientName }) => patientName)

beforeEach(async () => {
  device = tablet()
  page = await device.page()
})

describe('a device without a PIN', () => {
  it('is open, and says so', async () => {
    expect(page.state().lock.state).toBe('off')
    await record(page, 'Anna First')
    expect(names(await device.page())).toEqual(['Anna First'])
  })

  it.each([
    ['12345', 'tooShort'],
    ['123456', 'tooSimple'],
    ['48a913', 'digitsOnly'],
  ] as const)('takes no PIN like %s', async (pin, fault) => {
    await page.actions.setPin(pin)
    expect(page.state().lock).toMatchObject({ state: 'off', told: texts.section.faults[fault] })
  })

  it('takes no PIN during a draw', async () => {
    await page.begin()
    await page.actions.setPin(PIN)
    expect(page.state().lock).toMatchObject({ state: 'off', told: texts.section.notDuringDraw })
  })
})

describe('setting a PIN', () => {
  it('shows the recovery key once, and the records stay in sight', async () => {
    await record(page, 'Anna First')
    const recoveryKey = await withPin(page)
    expect(recoveryKey).toMatch(/^([0-9A-Z]{4}-){7}[0-9A-Z]{4}$/)
    expect(page.state().lock).toMatchObject({
      state: 'open',
      recoveryKey: undefined,
      sealing: undefined,
    })
    expect(names(page)).toEqual(['Anna First'])
  })

  it('locks every page that is opened later, until the PIN is typed', async () => {
    await record(page, 'Anna First')
    await withPin(page)
    const later = await device.page()
    expect(later.state()).toMatchObject({
      lock: { state: 'locked' },
      draws: [],
      trouble: undefined,
    })
    await later.actions.unlock('771144')
    expect(later.state().lock).toMatchObject({ state: 'locked', told: PIN_WRONG_TEXT })
    expect(names(later)).toEqual([])
    await later.actions.unlock(PIN)
    await quiet()
    expect(later.state().lock).toMatchObject({ state: 'open', told: undefined })
    expect(names(later)).toEqual(['Anna First'])
  })

  it('that was interrupted goes on when the device is unlocked the next time', async () => {
    await record(page, 'Anna First')
    const torn = await device.page({
      sealStored: () => Promise.reject(new Error('The tablet was switched off.')),
    })
    await torn.actions.setPin(PIN)
    await quiet()
    expect(torn.state().lock.told).toBe(texts.section.sealingFailed)
    const later = await device.page()
    await later.actions.unlock(PIN)
    await quiet()
    expect(later.deps.vault.isSealing()).toBe(false)
    expect(names(later)).toEqual(['Anna First'])
  })
})

describe('changing the PIN', () => {
  it('is told as done and not as a fault, until the next try', async () => {
    await withPin(page)
    await page.actions.changePin(PIN, '771144')
    expect(page.state().lock).toMatchObject({ told: undefined, done: texts.section.changed })
    await page.actions.changePin(PIN, '993311')
    expect(page.state().lock).toMatchObject({ told: PIN_WRONG_TEXT, done: undefined })
  })
})

describe('turning the PIN off', () => {
  it('asks for the PIN, and from then on every page opens without one', async () => {
    await record(page, 'Anna First')
    await withPin(page)
    await page.actions.turnPinOff('771144')
    expect(page.state().lock).toMatchObject({ state: 'open', told: PIN_WRONG_TEXT })
    await page.actions.turnPinOff(PIN)
    await quiet()
    expect(page.state().lock).toMatchObject({
      state: 'off',
      told: undefined,
      done: texts.section.turnedOff,
      unsealing: undefined,
    })
    const later = await device.page()
    expect(later.state().lock.state).toBe('off')
    expect(names(later)).toEqual(['Anna First'])
    await record(later, 'Berta Second')
    expect(names(await device.page()).sort()).toEqual(['Anna First', 'Berta Second'])
  })

  it('is not done during a draw', async () => {
    await withPin(page)
    await page.begin()
    await page.actions.turnPinOff(PIN)
    expect(page.state().lock).toMatchObject({ state: 'open', told: texts.section.notDuringDraw })
  })

  it('that was interrupted holds the PIN, and goes on when the device is unlocked the next time', async () => {
    await record(page, 'Anna First')
    await withPin(page)
    const torn = await device.page({
      unsealStored: () => Promise.reject(new Error('The tablet was switched off.')),
    })
    await torn.actions.unlock(PIN)
    await torn.actions.turnPinOff(PIN)
    await quiet()
    expect(torn.state().lock).toMatchObject({ state: 'open', told: texts.section.unsealingFailed })
    const later = await device.page()
    expect(later.state().lock.state).toBe('locked')
    await later.actions.unlock(PIN)
    await quiet()
    await quiet()
    expect(later.state().lock.state).toBe('off')
    expect(names(later)).toEqual(['Anna First'])
  })

  it('while a draw runs on another page loses nothing of it', async () => {
    await withPin(page)
    const drawing = await device.page()
    await drawing.actions.unlock(PIN)
    const drawId = await drawing.begin({ fullName: 'Anna First' })
    await page.actions.turnPinOff(PIN)
    await quiet()
    await drawing.touch('confirmPatient')
    await quiet()
    await drawing.pass(3)
    await quiet()
    expect(drawing.state().unsaved).toBeUndefined()
    expect(drawing.state().lock.state).toBe('off')
    const types = (await drawing.stored(drawId)).entries.map(({ event }) => event.type)
    expect(types).toContain('identifierChecked')
  })
})

describe('wrong PINs', () => {
  it('make the next try wait, second by second on the screen, and over a reload', async () => {
    await withPin(page)
    const later = await device.page()
    for (let n = 0; n < 4; n++) {
      await later.pass(later.state().lock.wait_s)
      await later.actions.unlock('771144')
    }
    expect(later.state().lock.wait_s).toBe(15)
    await later.actions.unlock(PIN)
    expect(later.state().lock.state).toBe('locked')
    await later.pass(3)
    expect(later.state().lock.wait_s).toBe(12)
    const again = await device.page()
    expect(again.state().lock.wait_s).toBe(15)
    await again.pass(15)
    await again.actions.unlock(PIN)
    expect(again.state().lock.state).toBe('open')
  })

  it('can be left for the recovery key, which sets a new PIN', async () => {
    await record(page, 'Anna First')
    const recoveryKey = await withPin(page)
    const later = await device.page()
    await later.actions.recover(recoveryKey.replace(/^..../, '0000'), '771144')
    expect(later.state().lock).toMatchObject({ state: 'locked', told: texts.locked.recoveryWrong })
    await later.actions.recover(recoveryKey, '123456')
    expect(later.state().lock).toMatchObject({
      state: 'locked',
      told: texts.section.faults.tooSimple,
    })
    await later.actions.recover(recoveryKey, '771144')
    await quiet()
    expect(names(later)).toEqual(['Anna First'])
    const last = await device.page()
    await last.actions.unlock('771144')
    expect(last.state().lock.state).toBe('open')
  })
})

describe('a device that is not used', () => {
  it('locks by itself after the time that is set, and nothing of a patient stays', async () => {
    const drawId = await record(page, 'Anna First')
    await withPin(page)
    await page.actions.go({ name: 'chart', drawId })
    await page.pass(299)
    expect(page.state().lock.state).toBe('open')
    use(page)
    await page.pass(299)
    expect(page.state().lock.state).toBe('open')
    await page.pass(2)
    expect(page.state().lock.state).toBe('locked')
    expect(JSON.stringify({ ...page.state(), records: [...page.state().records] })).not.toContain(
      'Anna',
    )
    await page.actions.unlock(PIN)
    await vi.waitFor(() => expect(names(page)).toEqual(['Anna First']), 10_000)
  })

  it('never locks during a draw, and does once it is closed', async () => {
    await withPin(page)
    const drawId = await page.begin({ fullName: 'Anna First' })
    await page.pass(1200)
    page.actions.lockNow()
    expect(page.state().lock.state).toBe('open')
    await page.touch('confirmPatient')
    expect((await page.stored(drawId)).entries.map(({ event }) => event.type)).toContain(
      'identifierChecked',
    )
    await page.close()
    await page.pass(301)
    expect(page.state().lock.state).toBe('locked')
  })

  it('locks at once when asked to', async () => {
    await withPin(page)
    page.actions.lockNow()
    expect(page.state().lock.state).toBe('locked')
    expect(page.deps.vault.state()).toBe('locked')
  })

  it('keeps the key for as long as something is not saved, and drops it then', async () => {
    await withPin(page)
    const drawId = await page.begin({ fullName: 'Anna First' })
    const append = page.deps.logStore.append.bind(page.deps.logStore)
    const refuse = () => Promise.reject(new Error('The disk is full.'))
    Object.assign(page.deps.logStore, { append: refuse })
    await page.close()
    page.actions.lockNow()
    expect(page.state().lock.state).toBe('locked')
    expect(page.state().draws).toEqual([])
    Object.assign(page.deps.logStore, { append })
    ;(page.deps.page as FakePage).comeBack()
    await quiet()
    expect(page.state().unsaved).toBeUndefined()
    expect(page.deps.vault.state()).toBe('locked')
    const later = await device.page()
    await later.actions.unlock(PIN)
    expect((await later.stored(drawId)).entries.at(-1)?.event.type).toBe('drawClosed')
  })
})

describe('a page that is lost in the middle of a draw', () => {
  async function lostWithBandOn(): Promise<string> {
    const drawId = await page.begin({ fullName: 'Anna First' })
    await page.follow('needle')
    await page.pass(20)
    await quiet()
    // The page dies: it says nothing more, and its lock is free.
    page.clock.reboot('dead')
    return drawId
  }
  /** The pages of this device share no lock: the first one is dead. */
  const next = (): Promise<AppRig> => device.page({ drawLock: { hold: free, take: free } })
  const free = () => Promise.resolve({ release: () => undefined })

  it('shows the clock of the band and sounds its alarm before any PIN, and names nobody', async () => {
    await withPin(page)
    const drawId = await lostWithBandOn()
    const later = await next()
    expect(later.state().lock.state).toBe('locked')
    const [left] = later.state().left
    expect(left?.drawId).toBe(drawId)
    expect(left?.clocks[0]).toMatchObject({ kind: 'band', state: 'running' })
    chimes(later).length = 0
    await later.pass(50)
    expect(chimes(later)).toContain('timeUp')
    expect(later.state().left[0]?.clocks[0]?.state).toBe('up')
    expect(JSON.stringify(later.state().left)).not.toMatch(/Anna|MRN|1980/)
    await later.actions.unlock(PIN)
    await quiet()
    expect(later.state().screen).toEqual({ name: 'draw', drawId })
    expect(later.state().draw?.patientLine).toContain('Anna First')
    expect(later.state().left).toEqual([])
  })

  it('does the same without a PIN, before anybody goes on with the draw', async () => {
    const drawId = await lostWithBandOn()
    const later = await next()
    expect(later.state().screen).toEqual({ name: 'home' })
    chimes(later).length = 0
    await later.pass(50)
    expect(chimes(later).filter((name) => name === 'timeUp').length).toBeGreaterThan(1)
    await later.actions.go({ name: 'draw', drawId })
    expect(later.state().draw?.mainClock?.kind).toBe('band')
  })

  it('is silent after half an hour, and still shows', async () => {
    await withPin(page)
    await lostWithBandOn()
    page.clock.advance(31 * 60_000)
    const later = await next()
    chimes(later).length = 0
    await later.pass(20)
    expect(chimes(later)).toEqual([])
    expect(later.state().left[0]?.clocks[0]?.state).toBe('up')
  })

  it('shows nothing of a draw that another page runs, or that was closed', async () => {
    await withPin(page)
    const drawId = await page.begin({ fullName: 'Anna First' })
    await page.follow('needle')
    await quiet()
    const second = await device.page()
    expect(second.state().left).toEqual([])
    await page.touch('bandOff')
    await page.close()
    await quiet()
    expect((await page.stored(drawId)).entries.at(-1)?.event.type).toBe('drawClosed')
    expect((await next()).state().left).toEqual([])
  })
})

describe('two pages', () => {
  it('one sets a PIN while the other draws: the other asks for it once its draw is closed, and loses nothing', async () => {
    const second = await device.page()
    const drawId = await second.begin({ fullName: 'Anna First' })
    await withPin(page)
    await second.touch('confirmPatient')
    await quiet()
    expect(second.state().unsaved?.why).toContain('locked')
    expect(second.state().lock.state).toBe('off')
    await second.close()
    await second.pass(1)
    await quiet()
    expect(second.state().lock.state).toBe('locked')
    await second.actions.unlock(PIN)
    await quiet()
    expect(second.state().unsaved).toBeUndefined()
    const log = await second.stored(drawId)
    expect(log.fault).toBeUndefined()
    expect(log.entries.at(-1)?.event.type).toBe('drawClosed')
  })
})
