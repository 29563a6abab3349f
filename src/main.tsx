import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { createBrowserDeviceKey } from './adapters/crypto/deviceKey.ts'
import { sha256 } from './adapters/crypto/sha256.ts'
import { verifySignature } from './adapters/crypto/verifySignature.ts'
import { createHowlerSound } from './adapters/sound/howlerSound.ts'
import { createKeysSpeech } from './adapters/speech/keysSpeech.ts'
import { createMicrophoneSource } from './adapters/speech/vosk/microphoneSource.ts'
import { createVoskSpeech } from './adapters/speech/vosk/voskSpeech.ts'
import { createConnection } from './adapters/storage/connection.ts'
import {
  createIndexedDbLogStore,
  createIndexedDbSettingsStore,
} from './adapters/storage/indexeddb.ts'
import { createSystemClock } from './adapters/time/systemClock.ts'
import { createWorkerWaker } from './adapters/time/workerWaker.ts'
import { findTests } from './core/catalogue/findTests.ts'
import { devicePrefixFrom } from './app/draw/drawIds.ts'
import { createPhraseTrial } from './app/voice/phraseTrial.ts'
import { createMicCheck } from './app/voice/micCheck.ts'
import { keptCatalogue } from './app/site/catalogue/keptCatalogue.ts'
import { keptPolicy } from './app/site/sitePolicy.ts'
import { readSite } from './app/site/readSite.ts'
import { readScenarios } from './app/site/readScenarios.ts'
import { testInfo } from './app/record/testInfo.ts'
import { createApp } from './app/createApp.ts'
import type { Settings } from './app/site/settings.ts'
import bloodLimits from './data/catalogue/bloodLimits.json?raw'
import norms from './data/catalogue/norms.json?raw'
import stock from './data/catalogue/stock.csv?raw'
import tests from './data/catalogue/tests.csv?raw'
import tubes from './data/catalogue/tubes.csv?raw'
import demo from './data/demo.json'
import noteTemplate from './data/en/note.json'
import phrases from './data/en/phrases.json'
import policy from './data/policy.json'
import prompts from './data/en/prompts.json'
import storageTexts from './data/en/storage.json'
import words from './data/en/words.json'
import modelManifest from '../models/manifest.json'
import { App } from './ui/App.tsx'
import { MicCheckScreen } from './ui/micCheck/MicCheckScreen.tsx'
import { CatalogueContainer } from './ui/catalogue/CatalogueContainer.tsx'
import { ChartContainer } from './ui/chart/ChartContainer.tsx'
import { LabelsContainer } from './ui/labels/LabelsContainer.tsx'
import { PhraseCheck } from './ui/settings/PhraseCheck.tsx'
import { troubleText } from './app/site/storageTexts.ts'

/** The one place where the parts of the app meet. */

const shipped = readSite({
  catalogue: { tests, tubes, stock, norms, bloodLimits },
  policy,
  words,
  prompts,
  phrases,
  noteTemplate,
  demo,
})

const scenarioTexts = import.meta.glob<string>('./data/scenarios/*.txt', {
  query: '?raw',
  import: 'default',
  eager: true,
})

/** Where the site's own catalogue and limits are kept on this device. */
const CATALOGUE_KEY = 'catalogue'
const POLICY_KEY = 'policy'

const address = (path: string): string => new URL(path, document.baseURI).href
const boot = crypto.randomUUID()
const startTimer = (): Worker =>
  new Worker(new URL('./adapters/time/timer.worker.ts', import.meta.url), { type: 'module' })
const clock = createSystemClock(boot, createWorkerWaker(startTimer))
const sound = createHowlerSound({ base: address('./'), voice: 'af_heart' })

function makeSpeech({ voiceOn, modelFile }: Settings) {
  if (!voiceOn) return createKeysSpeech()
  const known = (modelManifest as Record<string, { readonly sha256: string } | undefined>)[
    modelFile
  ]
  return createVoskSpeech({
    modelUrl: address(`models/${modelFile}`),
    workerUrl: address('vosk/vosk.worker.js'),
    wasmUrl: address('vosk/vosk.wasm'),
    ...(known ? { sha256: known.sha256 } : {}),
    source: createMicrophoneSource(address('audio/capture.worklet.js'), clock),
    clock,
  })
}

async function main(): Promise<void> {
  const connection = createConnection({ clock })
  const settingsStore = createIndexedDbSettingsStore(connection)
  const kept = keptCatalogue(shipped, await settingsStore.read(CATALOGUE_KEY))
  const limits = keptPolicy(shipped.defaultPolicy, await settingsStore.read(POLICY_KEY))
  const site = { ...kept.site, policy: limits.policy }
  const app = createApp({
    clock,
    logStore: createIndexedDbLogStore(connection, sha256),
    settingsStore,
    sound,
    makeSpeech,
    deviceKey: createBrowserDeviceKey(),
    sha256,
    verifySignature,
    site,
    storageTexts,
    drawLot: () => crypto.getRandomValues(new Uint32Array(1))[0] ?? 0,
    newDevicePrefix: () => devicePrefixFrom(crypto.getRandomValues(new Uint8Array(4))),
  })
  await app.start()
  const troubles = [app.store.getState().trouble, kept.trouble, limits.trouble].filter(Boolean)
  if (troubles.length > 0) app.store.setState({ trouble: troubles.join(' ') })
  const { testName } = testInfo(site.catalogue)
  const scenarios = readScenarios(scenarioTexts, site)
  const services = {
    searchTests: (typed: string) => findTests(site.catalogue, typed),
    testName,
    practice: {
      scenarios: scenarios.map(({ id, scenario: { title, about } }) => ({ id, title, about })),
      onStart: (id: string) => {
        const chosen = scenarios.find((each) => each.id === id)
        if (chosen) void app.startPractice(chosen.scenario)
      },
    },
  }
  const check = createMicCheck({
    clock,
    phrases: site.phrases,
    makeSpeech: () => makeSpeech(app.store.getState().settings),
    onHeard: () => sound.chime('heard'),
  })
  const keep = (key: string) => (json: string) => {
    settingsStore.write(key, json).then(
      () => location.reload(),
      (error: unknown) => app.store.setState({ trouble: `This cannot be kept: ${String(error)}` }),
    )
  }
  const loadLexicon = async (): Promise<string> => {
    const answer = await fetch(address('lexicon.en.txt'))
    if (!answer.ok) throw new Error(`The word list is not there (${answer.status}).`)
    return answer.text()
  }
  const trial = createPhraseTrial(site.phrases, site.words, loadLexicon)
  const place = document.getElementById('root')
  if (!place) throw new Error('The page has no place for the app.')
  createRoot(place).render(
    <StrictMode>
      <App
        port={{ store: app.store, actions: app.actions, services }}
        phraseCheck={<PhraseCheck {...trial} />}
        screens={{
          chart: () => <ChartContainer site={site} />,
          labels: () => <LabelsContainer />,
          catalogue: () => (
            <CatalogueContainer
              site={site}
              onKeep={keep(CATALOGUE_KEY)}
              onKeepPolicy={keep(POLICY_KEY)}
            />
          ),
          micCheck: () => <MicCheckScreen check={check} onBack={() => app.actions.go('home')} />,
        }}
      />
    </StrictMode>,
  )
}

main().catch((error: unknown) => {
  // Without storage or data nothing can be recorded, so nothing may look as if it could.
  document.body.textContent = `Stillhand cannot start: ${troubleText(error, storageTexts)}`
})
