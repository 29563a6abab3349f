import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { createBrowserDeviceKey } from './adapters/crypto/deviceKey.ts'
import { sha256 } from './adapters/crypto/sha256.ts'
import { createBrowserSecretRows } from './adapters/crypto/secretRows.ts'
import { createSecretStore } from './adapters/crypto/secretStore.ts'
import { createVault } from './adapters/crypto/vault.ts'
import { createWorkerJobs } from './adapters/jobs/workerJobs.ts'
import { createWebDrawLock } from './adapters/lock/webDrawLock.ts'
import { createWorkerSlowKey } from './adapters/crypto/workerSlowKey.ts'
import { allowScripts } from './adapters/page/allowScripts.ts'
import { createBrowserPage } from './adapters/page/browserPage.ts'
import { createOtherPages } from './adapters/page/otherPages.ts'
import { createScreenWake, wakeLockOf } from './adapters/screen/wakeLock.ts'
import { createBrowserReader } from './adapters/sound/browserReader.ts'
import { createSpokenSound } from './adapters/sound/spokenSound.ts'
import { createHowlerSound } from './adapters/sound/howlerSound.ts'
import { createKeysSpeech } from './adapters/speech/keysSpeech.ts'
import { createMicrophoneSource } from './adapters/speech/vosk/microphoneSource.ts'
import { createVoskSpeech } from './adapters/speech/vosk/voskSpeech.ts'
import { createConnection } from './adapters/storage/connection.ts'
import {
  createIndexedDbLogStore,
  createIndexedDbSettingsStore,
} from './adapters/storage/indexeddb.ts'
import { createIndexedDbHandOverStore } from './adapters/storage/handOverStore.ts'
import { createIndexedDbDayStore } from './adapters/storage/dayStore.ts'
import { createIndexedDbRunningStore } from './adapters/storage/runningStore.ts'
import { sealStored } from './adapters/storage/sealStored.ts'
import { unsealStored } from './adapters/storage/unsealStored.ts'
import { createSealedRows } from './adapters/storage/sealedRows.ts'
import { createIndexedDbVaultStore } from './adapters/storage/vaultStore.ts'
import { createSystemClock } from './adapters/time/systemClock.ts'
import { createWorkerWaker } from './adapters/time/workerWaker.ts'
import { createBusyLock } from './adapters/version/busyLock.ts'
import { keepOldFiles } from './adapters/version/oldFiles.ts'
import { launchStep } from './adapters/fhir/smart/launchStep.ts'
import { createWorkerVersions, workersOf } from './adapters/version/workerVersions.ts'
import type { AppDeps } from './app/appDeps.ts'
import { createAppServices } from './app/appServices.ts'
import { createApp } from './app/createApp.ts'
import { devicePrefixFrom } from './app/draw/drawIds.ts'
import { findHub } from './app/hub/setup/findHub.ts'
import { READING_LIMIT_ms } from './app/intake/createIntake.ts'
import { findRecordServer } from './app/site/findRecordServer.ts'
import { readHandOverLimits } from './app/site/handOverLimits.ts'
import { readListeningLimits } from './app/site/listeningLimits.ts'
import { readScenarios } from './app/site/readScenarios.ts'
import { readSite } from './app/site/readSite.ts'
import { languageInUse } from './app/site/languageInUse.ts'
import type { Settings } from './app/site/settings.ts'
import type { SiteData } from './app/site/siteData.ts'
import { modelOf } from './app/site/speechModels.ts'
import { readSiteBetweenDraws } from './app/site/takeShared.ts'
import { troubleText } from './app/site/storageTexts.ts'
import { showIn } from './core/basics/locale.ts'
import type { Language } from './core/basics/language.ts'
import { ownValue } from './core/basics/ownValue.ts'
import { defined } from './core/basics/defined.ts'
import bench from './data/catalogue/bench.json'
import bloodLimits from './data/catalogue/bloodLimits.json?raw'
import laboratories from './data/catalogue/laboratories.json?raw'
import norms from './data/catalogue/norms.json?raw'
import preferences from './data/catalogue/preferences.json?raw'
import search from './data/catalogue/search.json?raw'
import series from './data/catalogue/series.json?raw'
import stock from './data/catalogue/stock.csv?raw'
import tests from './data/catalogue/tests.csv?raw'
import tubes from './data/catalogue/tubes.csv?raw'
import demo from './data/demo.json'
import betweenPhrases from './data/en/betweenPhrases.json'
import phrases from './data/en/phrases.json'
import handOverLimits from './data/handOver.json'
import listeningLimits from './data/listening.json'
import { LANGUAGE_FILES, LEAFLETS } from './data/languages.ts'
import { RECORDED_VOICES } from './data/voices.ts'
import policy from './data/policy.json'
import modelManifest from '../models/manifest.json'
import { wakeIn } from './ports/patience.ts'
import { storageFaultOf } from './ports/storageFault.ts'
import { App } from './ui/App.tsx'

/** The one place where the parts of the app meet. */

const shippedIn = (language: Language): SiteData =>
  readSite({
    catalogue: {
      ...{ tests, tubes, stock, norms, bloodLimits, preferences, series, search, laboratories },
    },
    policy,
    ...LANGUAGE_FILES[language],
    recordTexts: LANGUAGE_FILES.en.texts,
    phrases,
    betweenPhrases,
    demo,
    bench,
  })
const scenarioTexts = import.meta.glob<string>('./data/scenarios/*.txt', {
  query: '?raw',
  import: 'default',
  eager: true,
})
const models: Readonly<Record<string, { readonly sha256: string } | undefined>> = modelManifest

const address = (path: string): string => new URL(path, document.baseURI).href
allowScripts(window, address('./'))

const startTimer = (): Worker =>
  new Worker(new URL('./adapters/time/timer.worker.ts', import.meta.url), { type: 'module' })
const clock = createSystemClock(crypto.randomUUID(), createWorkerWaker(startTimer))

function makeSpeech(settings: Settings) {
  if (!settings.voiceOn) return createKeysSpeech()
  const modelFile = modelOf(settings)
  return createVoskSpeech({
    modelUrl: address(`models/${modelFile}`),
    workerUrl: address('vosk/vosk.worker.js'),
    wasmUrl: address('vosk/vosk.wasm'),
    ...defined({ sha256: ownValue(models, modelFile)?.sha256 }),
    source: createMicrophoneSource(address('audio/capture.worklet.js'), clock),
    clock,
  })
}

const startIntake = (): Worker =>
  new Worker(new URL('./intake.worker.ts', import.meta.url), { type: 'module' })
const startSlowKey = (): Worker =>
  new Worker(new URL('./adapters/crypto/slowKey.worker.ts', import.meta.url), { type: 'module' })

const versions = createWorkerVersions({
  clock,
  workers: import.meta.env.PROD ? workersOf(navigator) : undefined,
  script: address('sw.js'),
  busy: createBusyLock(navigator.locks),
  keepOld: () => keepOldFiles(caches, address('assets/')),
})

/** What a launch from a chart needs of the page. */
const launchPage = () => ({
  here: new URL(location.href),
  keep: sessionStorage,
  leaveFor: (url: string) => location.assign(url),
  clearQuestion: () => history.replaceState(null, '', location.pathname),
})

/** What the page says from now on, also to whoever reads it aloud. */
let storageTexts = LANGUAGE_FILES.en.texts.storage
function speak(language: Language): void {
  showIn(language)
  document.documentElement.lang = language
  storageTexts = LANGUAGE_FILES[language].texts.storage
}

const readerIn = (language: Language) =>
  createBrowserReader(
    'speechSynthesis' in window ? window.speechSynthesis : undefined,
    (text) => new SpeechSynthesisUtterance(text),
    language,
  )

const START_AGAIN_ms = 5000

async function main(): Promise<void> {
  let isBusy = (): boolean => false
  let isDrawnHere = (): Promise<boolean> => Promise.resolve(false)
  const connection = createConnection({ clock, mayLetGo: () => !isBusy() })
  const settingsStore = createIndexedDbSettingsStore(connection)
  const slowKey = createWorkerSlowKey(startSlowKey)
  const vault = createVault({ clock, store: createIndexedDbVaultStore(connection), slowKey })
  await vault.load()
  const sealedRows = createSealedRows(vault)
  const runningStore = createIndexedDbRunningStore(connection)
  const isDrawing = async (): Promise<boolean> => (await runningStore.list()).length > 0
  const language = await languageInUse(settingsStore, isDrawing)
  speak(language)
  const { value: site, faults } = await readSiteBetweenDraws(
    shippedIn(language),
    settingsStore,
    isDrawing,
  )
  const kept = {
    clock,
    logStore: createIndexedDbLogStore(connection, sha256, sealedRows),
    dayStore: createIndexedDbDayStore(connection, sha256, sealedRows),
    settingsStore,
    deviceKey: createBrowserDeviceKey(clock),
  }
  const page = createBrowserPage(address)
  const secrets = createSecretStore(createBrowserSecretRows(clock), vault)
  const channel =
    'BroadcastChannel' in window ? (name: string) => new BroadcastChannel(name) : undefined
  const otherPages = createOtherPages(channel, 'clinic')
  const sound = createHowlerSound({
    base: address('./'),
    voice: 'af_heart',
    clock,
    // Missing where the page is not served safely.
    devices: navigator.mediaDevices,
  })
  const hub = await findHub({
    clock,
    settingsStore,
    readText: (path, most_B) => page.readText(path, most_B),
    wire: async (site) => {
      const { wireHub } = await import('./hubWiring.ts')
      return wireHub(site, {
        ...kept,
        connection,
        secrets,
        slowKey,
        tellOthers: () => otherPages.tell(),
        startAnew: () => page.startAnew(),
      })
    },
  })
  const readers = { en: readerIn('en'), es: readerIn('es') }
  const voices = RECORDED_VOICES[language]
  const limits = readHandOverLimits(handOverLimits)
  const step = launchStep(new URL(location.href))
  const deps: AppDeps = {
    ...kept,
    ...defined({ clinic: hub.clinic }),
    findClinicSetup: hub.findSetup,
    clinicMoved: { look: hub.lookMoved, onTold: (look) => otherPages.onTold(look) },
    handOver: {
      store: createIndexedDbHandOverStore(connection, sealedRows),
      limits,
      find: () => findRecordServer((path, most_B) => page.readText(path, most_B)),
      isLaunched: step !== 'none',
      connect: async (file) => {
        const { wireHandOver } = await import('./handOverWiring.ts')
        return wireHandOver(file, {
          clock,
          limits,
          step,
          page: launchPage(),
          isBusy: () => isDrawnHere(),
        })
      },
    },
    drawLock: createWebDrawLock(navigator.locks),
    sound: createSpokenSound({
      recorded: sound,
      voices,
      reader: readers[language],
      others: Object.values(readers).filter((each) => each !== readers[language]),
      textOf: (key) => site.prompts.prompts[key],
    }),
    earpiece: sound.earpiece,
    settingsPages: createOtherPages(channel, 'settings'),
    reader: readers[language],
    readers,
    leaflets: LEAFLETS,
    hasVoice: voices.length > 0,
    screenWake: createScreenWake({
      clock,
      wakeLock: wakeLockOf(navigator),
      page: document,
    }),
    versions,
    runningStore,
    vault,
    sealStored: async (onProgress) => {
      await sealStored(connection, sealedRows, onProgress)
      await secrets.reseal()
    },
    unsealStored: async (onProgress) => {
      // With the vault goes the key that they are sealed with.
      await secrets.reseal()
      await unsealStored(connection, sealedRows, onProgress)
    },
    makeSpeech,
    listening: readListeningLimits(listeningLimits),
    sha256,
    jobs: createWorkerJobs(startIntake, READING_LIMIT_ms),
    page,
    site,
    storageTexts,
    drawLot: () => crypto.getRandomValues(new Uint32Array(1))[0] ?? 0,
    // The scripts press buttons by their English names.
    scenarios: readScenarios(
      scenarioTexts,
      { phrases, words: LANGUAGE_FILES.en.words },
      LANGUAGE_FILES[language],
    ),
    newDevicePrefix: () => devicePrefixFrom(crypto.getRandomValues(new Uint8Array(4))),
  }
  const app = createApp(deps)
  isBusy = () => app.isBusy()
  const started = app.start(faults)
  // Only then it is known which draw this page goes on with, also behind a PIN.
  isDrawnHere = () =>
    started.then(
      () => isBusy() || app.store.getState().left.some(({ clocks }) => clocks.length > 0),
    )
  await started
  const services = createAppServices(deps, app.store, app.actions)
  const root = document.getElementById('root')
  if (!root) throw new Error('The page has no root for the app.')
  createRoot(root).render(
    <StrictMode>
      <App port={{ store: app.store, actions: app.actions, services }} />
    </StrictMode>,
  )
}

main().catch((error: unknown) => {
  // Without storage or data nothing can be recorded, so nothing may look as if it could.
  document.body.textContent = `Stillhand cannot start: ${troubleText(error, storageTexts)}`
  // As soon as the other tab is closed it can.
  if (storageFaultOf(error) === 'blocked') wakeIn(clock, START_AGAIN_ms, () => location.reload())
})
