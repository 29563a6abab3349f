import { describe, expect, it } from 'vitest'
import { createOtherPages } from '../../src/adapters/page/otherPages.ts'
import { createMemorySettingsStore } from '../../src/adapters/storage/memory.ts'
import voice from '../../src/data/en/voice.json'
import { appRig } from '../support/appRig.ts'
import { fakeEarpiece } from '../support/fakeEarpiece.ts'
import { fakeReader } from '../support/fakeReader.ts'
import { fakeSound } from '../support/fakeSound.ts'
import { shippedSite } from '../support/site.ts'

const EAR = { earId: 'e1', earName: 'Left ear' }

async function started(change: Parameters<typeof appRig>[0] = {}) {
  const sound = fakeSound()
  const earpiece = fakeEarpiece()
  const rig = appRig({ sound, earpiece, ...change })
  await rig.app.start()
  return {
    ...rig,
    begin: () => rig.begin(),
    stored: (drawId: string) => rig.stored(drawId),
    pass: (s: number) => rig.pass(s),
    sound,
    earpiece,
  }
}

/** Channels of one browser: what one page tells all others hear in the same moment. */
function oneBrowser() {
  const pages: { heard: (() => void)[] }[] = []
  return () => {
    const mine = { heard: [] as (() => void)[] }
    pages.push(mine)
    const channel = {
      postMessage: () =>
        pages.filter((page) => page !== mine).forEach(({ heard }) => heard.forEach((on) => on())),
      addEventListener: (_: string, on: () => void) => void mine.heard.push(on),
    }
    return createOtherPages(() => channel as unknown as BroadcastChannel, 'settings')
  }
}

describe('prompts to one ear', () => {
  it('the ear of the settings is taken at the start, and each change of it', async () => {
    const settingsStore = createMemorySettingsStore()
    await settingsStore.write('settings', JSON.stringify(EAR))
    const rig = await started({ settingsStore })
    rig.actions.changeSettings({ speakWithoutEar: true })
    rig.actions.changeSettings({ earId: '', earName: '' })
    const device = { id: 'e1', name: 'Left ear' }
    const differing = rig.earpiece.choices.filter(
      (each, i, all) => JSON.stringify(each) !== JSON.stringify(all[i - 1]),
    )
    expect(differing).toEqual([
      { device, speakWithout: false },
      { device, speakWithout: true },
      { device: undefined, speakWithout: true },
    ])
  })

  it('its going is told at once with what is heard instead, and its coming back ends that', async () => {
    const { actions, earpiece, state } = await started()
    actions.changeSettings(EAR)
    earpiece.setState('there')
    expect(state().earTrouble).toBeUndefined()
    earpiece.setState('gone')
    expect(state().earTrouble).toEqual({
      what: 'The earpiece is gone (Left ear).',
      advice: voice.ear.advice.quiet,
    })
    actions.changeSettings({ speakWithoutEar: true })
    expect(state().earTrouble?.advice).toBe(voice.ear.advice.spoken)
    earpiece.setState('there')
    expect(state().earTrouble).toBeUndefined()
  })

  it('a draw goes on in tones while it is gone, alarms as ever, and in words once it is back', async () => {
    const { actions, earpiece, sound, begin, touch, settle, clock } = await started()
    actions.changeSettings(EAR)
    earpiece.setState('there')
    await begin()
    expect(sound.spoken).toEqual(['step.identity'])
    earpiece.setState('gone')
    clock.advance(5000)
    await touch('confirmPatient')
    clock.advance(1000)
    await touch('stopEverything')
    await settle()
    clock.advance(1000)
    expect(sound.spoken).toEqual(['step.identity'])
    expect(sound.chimes).toEqual(expect.arrayContaining(['next', 'severe']))
    earpiece.setState('there')
    await touch('sayAgain')
    expect(sound.spoken.length).toBe(2)
  })

  it.each([
    ['there', 'played', /A tone was played to Left ear/],
    ['gone', 'played', /is gone/],
    ['finding', 'played', /being looked for/],
    ['there', 'silent', /switched off/],
    ['there', 'heldBack', /holds all sound back/],
  ] as const)('a test while it is %s and sound is %s is put into words', async (at, how, words) => {
    const tested: (string | undefined)[] = []
    const sound = {
      ...fakeSound(),
      test: (name?: string) => {
        tested.push(name)
        return Promise.resolve(how)
      },
    }
    const { actions, earpiece } = await started({ sound })
    actions.changeSettings(EAR)
    earpiece.setState(at)
    expect(await actions.testEar()).toMatch(words)
    expect(tested).toEqual(at === 'there' ? ['told'] : [])
  })

  it('a second page goes to the ear that was chosen in the first, and keeps its own nothing over it', async () => {
    const settingsStore = createMemorySettingsStore()
    const page = oneBrowser()
    const first = await started({ settingsStore, settingsPages: page() })
    const second = await started({ settingsStore, settingsPages: page() })
    first.actions.changeSettings({ ...EAR, tonesOnly: true })
    await first.settle()
    await second.settle()
    expect(second.state().settings).toMatchObject({ ...EAR, tonesOnly: true })
    expect(second.earpiece.choices.at(-1)?.device?.id).toBe('e1')
    second.actions.changeSettings({ volume: 0.4 })
    await second.settle()
    await first.settle()
    expect(first.state().settings).toMatchObject({ ...EAR, tonesOnly: true, volume: 0.4 })
  })
})

describe('tones in place of words', () => {
  it('are asked for and given back in a draw: said on the screen, kept, and in no record', async () => {
    const { state, sound, begin, touch, stored, settle } = await started()
    const drawId = await begin()
    const before = (await stored(drawId)).entries.length
    await touch('tonesOnly')
    expect((await stored(drawId)).entries.length).toBe(before)
    expect(state().settings.tonesOnly).toBe(true)
    expect(state().draw?.isTonesOnly).toBe(true)
    expect(state().draw?.notice?.text).toMatch(/Nothing is spoken now/)
    expect(state().draw?.otherVoice.command).toEqual({ type: 'wordsAgain' })
    const spoken = sound.spoken.length
    await touch('confirmPatient')
    await settle()
    expect(sound.spoken.length).toBe(spoken)
    await touch('wordsAgain')
    expect(state().draw?.notice?.text).toMatch(/spoken again/)
    expect(sound.spoken.at(-1)).toBe('app.test')
  })

  it('are chosen before the draw, and kept on this device', async () => {
    const settingsStore = createMemorySettingsStore()
    const { actions, settle } = await started({ settingsStore })
    actions.changeSettings({ tonesOnly: true })
    await settle()
    const again = await started({ settingsStore })
    await again.begin()
    again.clock.advance(1000)
    expect(again.sound.spoken).toEqual([])
    expect(again.sound.chimes).toContain('next')
  })
})

describe('discreet wordings', () => {
  it('are shown first where a patient hears us; the plain ones stand behind them', async () => {
    const { actions, state, begin, pass } = await started()
    await begin()
    const stuck = () =>
      state().draw?.always.find(({ command }) => command.type === 'needlestick')?.phrases
    expect(stuck()).toEqual(['stuck myself', 'i stuck myself', 'sharps injury', 'three for myself'])
    actions.changeSettings({ discreet: true })
    await pass(2)
    expect(stuck()).toEqual(['three for myself', 'stuck myself', 'i stuck myself', 'sharps injury'])
  })
})

const unrecordedNausea = {
  ...shippedSite,
  prompts: { ...shippedSite.prompts, unrecorded: ['discreet.exception.nausea'] },
}

it('a voice of the browser, which no ear can have, reads nothing while an ear is chosen', async () => {
  const reader = fakeReader()
  const { actions, earpiece, begin, sound, touch } = await started({
    reader,
    site: unrecordedNausea,
  })
  actions.changeSettings({ ...EAR, discreet: true })
  earpiece.setState('there')
  await begin()
  await touch('nausea')
  expect(reader.texts).toEqual([])
  expect(sound.spoken).not.toContain('discreet.exception.nausea')
})

it('a voice of the browser reads what is not recorded where no ear is chosen', async () => {
  const reader = fakeReader()
  const { actions, begin, touch } = await started({ reader, site: unrecordedNausea })
  actions.changeSettings({ discreet: true })
  await begin()
  await touch('nausea')
  expect(reader.texts).toHaveLength(1)
})
