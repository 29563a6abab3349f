import { beforeEach, describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../src/adapters/storage/memory.ts'
import { OWN_VOICES_KEY } from '../../src/app/voice/ownVoices.ts'
import type { Command } from '../../src/core/protocol/commands.ts'
import { countsOf } from '../../src/core/voice/ownVoice.ts'
import { REST_DRAWS } from '../../src/core/voice/rankWordings.ts'
import { appRig, type AppRig } from '../support/appRig.ts'

const ADA = { name: 'Ada Sample', initials: 'AS', siteName: '' }
const BO = { name: 'Bo Sample', initials: 'BS', siteName: '' }
const CONFIRM = { type: 'confirmPatient' } as const
const FIRST = 'patient confirmed'
const SECOND = 'identity confirmed'

let rig: AppRig
const settingsStore = () => rig.deps.settingsStore

const say = async (command: Command, phrase: string): Promise<void> => {
  rig.clock.advance(1000)
  await rig.actions.command(command, 'voice', phrase)
  await rig.settle()
}
/** The patient is confirmed by voice so often, and that is taken back each time but the last. */
async function failing(times: number, phrase = FIRST): Promise<string> {
  const drawId = await rig.begin()
  for (let i = 0; i < times; i++) {
    await say(CONFIRM, phrase)
    await say({ type: 'goBack' }, 'go back')
  }
  await say(CONFIRM, phrase)
  await rig.close()
  await rig.settle()
  return drawId
}
const offer = () => rig.state().ownVoice.offer
const firstWording = () =>
  rig.state().draw?.choices.find(({ place }) => place === 'main')?.phrases[0]

beforeEach(async () => {
  rig = appRig()
  await rig.app.start()
})

describe('after draws', () => {
  it('offers another wording where the one shown is often taken back, and changes nothing by itself', async () => {
    const drawId = await failing(6)
    expect(offer()).toEqual({ drawId, key: 'confirmPatient', from: FIRST, to: SECOND, acted: 7, takenBack: 6 }) // prettier-ignore
    await rig.begin({ orderNumber: 'O-2' })
    expect(firstWording()).toBe(FIRST)
  })

  it('offers nothing after few', async () => {
    await failing(2)
    expect(offer()).toBeUndefined()
    expect(countsOf(rig.state().ownVoice.own!, 'confirmPatient', FIRST)).toMatchObject({ acted: 3, takenBack: 2 }) // prettier-ignore
  })

  it('shows what was accepted first from then on, also after a start, and hears both', async () => {
    await failing(6)
    await rig.actions.ownVoice.answerOffer('change')
    expect(offer()).toBeUndefined()
    const again = appRig({ ...rig.deps })
    await again.app.start()
    rig = again
    await rig.begin({ orderNumber: 'O-2' })
    expect(firstWording()).toBe(SECOND)
    expect(rig.state().draw?.choices.find(({ place }) => place === 'main')?.phrases).toContain(
      FIRST,
    )
    await rig.close()
    await rig.actions.ownVoice.resetWording('confirmPatient')
    await rig.begin({ orderNumber: 'O-3' })
    expect(firstWording()).toBe(FIRST)
  })

  it('rests after an offer, whatever the answer, and then offers again', async () => {
    await failing(6)
    await rig.actions.ownVoice.answerOffer('notNow')
    for (let i = 0; i < REST_DRAWS - 1; i++) {
      await failing(1)
      expect(offer()).toBeUndefined()
    }
    await failing(1)
    expect(offer()?.key).toBe('confirmPatient')
  })

  it('never asks again of a command when it is told so', async () => {
    await failing(6)
    await rig.actions.ownVoice.answerOffer('never')
    for (let i = 0; i <= REST_DRAWS; i++) await failing(1)
    expect(offer()).toBeUndefined()
    expect(rig.state().ownVoice.own?.never).toEqual(['confirmPatient'])
  })

  it('counts nothing of practice', async () => {
    rig.actions.startDemo()
    rig.actions.makePlan()
    await rig.actions.openDraw()
    await say(CONFIRM, FIRST)
    await rig.close()
    expect(rig.state().draw?.closed).toBeDefined()
    expect(await settingsStore().read(OWN_VOICES_KEY)).toBeUndefined()
  })
})

describe('two people at one tablet', () => {
  it('have each their own wordings, by who draws', async () => {
    await failing(6)
    await rig.actions.ownVoice.answerOffer('change')
    rig.actions.sayWhoDraws(BO)
    expect(rig.state().ownVoice).toMatchObject({ own: undefined, others: 1 })
    await rig.plan({ orderNumber: 'O-2' })
    rig.actions.sayWhoDraws(BO)
    await rig.actions.openDraw()
    expect(firstWording()).toBe(FIRST)
    // Ada takes over in mid-draw, and her wordings with her.
    const { id } = { id: 'ada-sample-as' }
    await rig.touch({ type: 'handOver', to: { id, ...ADA } })
    expect(firstWording()).toBe(SECOND)
  })

  it('are not offered each other’s: an offer goes with the person whom it was made to', async () => {
    await failing(6)
    expect(offer()).toBeDefined()
    rig.actions.sayWhoDraws(BO)
    expect(offer()).toBeUndefined()
    await rig.actions.ownVoice.answerOffer('change')
    rig.actions.sayWhoDraws(ADA)
    expect(rig.state().ownVoice.own?.chosen).toEqual({})
  })

  it('can delete their own numbers alone, or everybody’s', async () => {
    await failing(2)
    rig.actions.sayWhoDraws(BO)
    const found = { trials: [{ key: 'bandOff', phrase: 'band is off', isHeard: true }] }
    await rig.actions.ownVoice.learn('bo-sample-bs', found)
    expect(rig.state().ownVoice).toMatchObject({ others: 1 })
    await rig.actions.ownVoice.forgetMine()
    expect(rig.state().ownVoice).toMatchObject({ own: undefined, others: 1 })
    rig.actions.sayWhoDraws(ADA)
    expect(rig.state().ownVoice.own).toBeDefined()
    await rig.actions.ownVoice.forgetAll()
    expect(rig.state().ownVoice).toMatchObject({ own: undefined, others: 0 })
    expect(await settingsStore().read(OWN_VOICES_KEY)).toBe('')
  })
})

describe('what is kept', () => {
  it('goes with no export of a record', async () => {
    const drawId = await failing(6)
    await rig.actions.ownVoice.answerOffer('change')
    const kept = (await settingsStore().read(OWN_VOICES_KEY)) ?? ''
    const salt = /"salt":"(\w+)"/.exec(kept)?.[1] ?? 'none'
    for (const format of ['log', 'note', 'fhir'] as const) {
      const text = (await rig.actions.exportRecord(drawId, format))?.text ?? ''
      expect(text).not.toBe('')
      expect(text).not.toContain(salt)
      expect(text).not.toContain('takenBack')
    }
  })

  it('is forgotten and told once where it is damaged, and the app starts', async () => {
    const settingsStore = createMemorySettingsStore()
    await settingsStore.write(OWN_VOICES_KEY, '{{')
    const damaged = appRig({ settingsStore })
    await damaged.app.start()
    expect(damaged.state().trouble).toMatch(/learned of how somebody speaks .* is forgotten/)
    const again = appRig({ settingsStore })
    await again.app.start()
    expect(again.state().trouble).toBeUndefined()
  })

  it('that cannot be written is told, and the draw goes on', async () => {
    const store = createMemorySettingsStore()
    const full = { ...store, update: () => Promise.reject(new Error('full')) }
    rig = appRig({ settingsStore: full })
    await rig.app.start()
    await failing(6)
    expect(rig.state().draw?.closed).toBeDefined()
    expect(rig.state().trouble).toMatch(/learned of your voice cannot be kept/)
    expect(offer()).toBeUndefined()
  })
})
