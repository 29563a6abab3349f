import { describe, expect, it } from 'vitest'
import { createMemoryDayStore } from '../../../src/adapters/storage/dayStore.ts'
import { createBrowserDeviceKey } from '../../../src/adapters/crypto/deviceKey.ts'
import { createDirectJobs } from '../../../src/adapters/jobs/directJobs.ts'
import { intakeHandlers } from '../../../src/app/intake/intakeJobs.ts'
import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'
import { createMemoryDrawLocks } from '../../../src/adapters/lock/memoryDrawLocks.ts'
import { createSilentSound } from '../../../src/adapters/sound/silentSound.ts'
import { createKeysSpeech } from '../../../src/adapters/speech/keysSpeech.ts'
import {
  createMemoryLogStore,
  createMemorySettingsStore,
} from '../../../src/adapters/storage/memory.ts'
import { createMemoryRunningStore } from '../../../src/adapters/storage/runningStore.ts'
import { quickVault } from '../../support/vaults.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import type { AppDeps } from '../../../src/app/appDeps.ts'
import { readSettings } from '../../../src/app/site/readSettings.ts'
import { createApp } from '../../../src/app/createApp.ts'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import { SAMPLE_DRAW_ID, SAMPLE_START_ms, sampleLog, sha256 } from '../../support/sampleLog.ts'
import { fakePage } from '../../support/fakePage.ts'
import { fakeEarpiece } from '../../support/fakeEarpiece.ts'
import { fakeReader } from '../../support/fakeReader.ts'
import { fakeScreenWake } from '../../support/fakeScreenWake.ts'
import { fakeVersions } from '../../support/fakeVersions.ts'
import { LEAFLETS } from '../../../src/data/languages.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { shippedListening } from '../../support/shippedListening.ts'
import { shippedSite } from '../../support/site.ts'
import storageTexts from '../../../src/data/en/storage.json' with { type: 'json' }

describe('the kept settings', () => {
  it('are as at first where none were kept, and without a word', () => {
    expect(readSettings(undefined, texts.site)).toEqual({ value: DEFAULT_SETTINGS, faults: [] })
  })

  it('are taken as they were kept; what an earlier version did not know is as at first', () => {
    const { value: settings, faults } = readSettings('{"volume":0.3,"paper":"letter"}', texts.site)
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, volume: 0.3, paper: 'letter' })
    expect(faults).toEqual([])
  })

  it.each(['', '{', 'null', '[1]', '"x"', '7'])('are as at first, with a word: %s', (json) => {
    const { value: settings, faults } = readSettings(json, texts.site)
    expect(settings).toEqual(DEFAULT_SETTINGS)
    expect(faults.join()).toContain('No draw is lost')
  })

  it.each([
    '{"volume":"loud"}',
    '{"volume":null}',
    '{"volume":7}',
    '{"paper":"A3"}',
    '{"voiceOn":"yes"}',
    '{"siteName":{"en":"Invented"}}',
  ])('keep what reads beside what does not: %s', (bad) => {
    const { value: settings, faults } = readSettings(
      bad.replace('{', '{"collectorName":"Robin",'),
      texts.site,
    )
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, collectorName: 'Robin' })
    expect(faults.join()).toContain('No draw is lost')
  })

  it('drop a device prefix that cannot be printed as bars, so that the device gets a new one', () => {
    for (const devicePrefix of ['ÄB', 'q', 'TOOLONG', 'D 7']) {
      const { value: settings, faults } = readSettings(JSON.stringify({ devicePrefix }), texts.site)
      expect(settings.devicePrefix).toBe('')
      expect(faults.join()).toContain('No draw is lost')
    }
    expect(readSettings('{"devicePrefix":"D7"}', texts.site).value.devicePrefix).toBe('D7')
  })

  it('drop what is no setting', () => {
    expect(readSettings('{"old":1}', texts.site)).toEqual({ value: DEFAULT_SETTINGS, faults: [] })
  })
})

it('the app opens on a device whose settings do not read, says so, and has its draws', async () => {
  const logStore = createMemoryLogStore(sha256)
  await logStore.adopt(sampleLog(), '')
  const settingsStore = createMemorySettingsStore()
  await settingsStore.write('settings', '{"volume":0.3')
  const start = { boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 0 }
  const clock = createSimulatedClock(start)
  const deps: AppDeps = {
    clock,
    logStore,
    dayStore: createMemoryDayStore(sha256),
    settingsStore,
    drawLock: createMemoryDrawLocks()(),
    runningStore: createMemoryRunningStore(),
    vault: quickVault(),
    sealStored: async () => undefined,
    unsealStored: async () => undefined,
    sound: createSilentSound(),
    earpiece: fakeEarpiece(),
    reader: fakeReader(),
    readers: { en: fakeReader(), es: fakeReader() },
    leaflets: LEAFLETS,
    hasVoice: true,
    screenWake: fakeScreenWake(),
    versions: fakeVersions(),
    makeSpeech: createKeysSpeech,
    listening: shippedListening,
    deviceKey: createBrowserDeviceKey(clock),
    sha256,
    jobs: createDirectJobs(intakeHandlers(sha256, verifySignature)),
    site: shippedSite,
    storageTexts,
    scenarios: [],
    page: fakePage(),
    newDevicePrefix: () => 'KM47',
    drawLot: () => 1,
  }
  const app = createApp(deps)
  await app.start()
  const { settings, trouble, draws, screen } = app.store.getState()
  expect(screen).toEqual({ name: 'home' })
  expect(settings).toEqual({ ...DEFAULT_SETTINGS, devicePrefix: 'KM47' })
  expect(trouble).toContain('could not be read')
  expect(draws.map(({ drawId }) => drawId)).toEqual([SAMPLE_DRAW_ID])
  expect(readSettings(await settingsStore.read('settings'), texts.site)).toEqual({
    value: settings,
    faults: [],
  })
})
