import type { StoreApi } from 'zustand/vanilla'
import type { DrawLog } from '../core/protocol/entry.ts'
import type { Orderable } from '../core/catalogue/series.ts'
import { createTestSearch, type Fit } from '../core/catalogue/testSearch.ts'
import type { Earpiece } from '../ports/earpiece.ts'
import type { Reader } from '../ports/reader.ts'
import type { Page } from '../ports/page.ts'
import type { AppActions, AppState } from './appApi.ts'
import { createScorePracticeDraw, type ScorePracticeDraw } from './figures/scorePracticeDraw.ts'
import { createIntake, type Intake } from './intake/createIntake.ts'
import type { SentPack } from '../core/courier/sentPacks.ts'
import type { AppDeps } from './appDeps.ts'
import type { NamedScenario } from './site/namedScenario.ts'
import type { Language } from '../core/basics/language.ts'
import type { LanguageTexts } from './site/languageTexts.ts'
import type { SiteData } from './site/siteData.ts'
import { collectorIdOf, whoDraws } from './site/whoDraws.ts'
import { laterActs, type LaterActs } from './view/laterActs.ts'
import { manifestFor, type SummedManifest } from './view/manifestFiles.ts'
import { createMicCheck, type CheckedPerson, type MicCheck } from './voice/micCheck.ts'
import { ownBook } from './voice/ownBook.ts'
import { createPhraseTrial, type PhraseTrial } from './voice/phraseTrial.ts'

/** A test of the catalogue as the screens need it. */
export interface TestMatch {
  readonly code: string
  readonly name: string
  readonly aliases: readonly string[]
  readonly fit: Fit
  /** The site's closure words of its tubes, where it was found by them. */
  readonly closures: readonly string[]
}

/** What the screens stand on besides the state: look-ups, the site's data, and checks with a life of their own. */
export interface AppServices {
  readonly site: SiteData
  /** Unix ms. */
  readonly now_ms: () => number
  /** Best matches first; everything when nothing is typed, the most used first. */
  readonly searchTests: (typed: string) => readonly TestMatch[]
  /** The test's name, or the code itself when the catalogue does not know it. */
  readonly testName: (code: string) => string
  /** Scripts to rehearse; may be none. */
  readonly scenarios: readonly NamedScenario[]
  /** What a rehearsal came to against its script. */
  readonly scorePracticeDraw: ScorePracticeDraw
  /** What goes with a pack, on paper and as a file. */
  readonly manifest: (pack: SentPack) => SummedManifest
  /** What may still be recorded of a closed draw. */
  readonly laterActs: (log: DrawLog) => LaterActs
  readonly micCheck: MicCheck
  readonly phraseTrial: PhraseTrial
  /** Reads catalogues, stock and limits; orders and logs are brought in by the actions. */
  readonly intake: Pick<Intake, 'catalogue' | 'stock' | 'laboratories' | 'limits'>
  readonly reader: Pick<Reader, 'isThere'>
  readonly earpiece: Pick<Earpiece, 'choosing' | 'list' | 'ask'>
  /** Reads to a patient in their language. */
  readonly readers: Readonly<Record<Language, Reader>>
  /** What the patient gets, in each language. */
  readonly leaflets: Readonly<Record<Language, LanguageTexts['leaflet']>>
  /** Whether prompts in the language of the screens are recorded. */
  readonly hasVoice: boolean
  readonly page: Pick<Page, 'print' | 'copyText' | 'saveText'>
}

/** Where the words lie that the recognizer knows, beside the page. */
const LEXICON = 'lexicon.en.txt'

export type ServiceDeps = Pick<
  AppDeps,
  | 'site'
  | 'scenarios'
  | 'sha256'
  | 'jobs'
  | 'clock'
  | 'sound'
  | 'makeSpeech'
  | 'page'
  | 'reader'
  | 'earpiece'
  | 'readers'
  | 'leaflets'
  | 'hasVoice'
>

export function createAppServices(
  deps: ServiceDeps,
  store: StoreApi<AppState>,
  actions: Pick<AppActions, 'ownVoice'>,
): AppServices {
  const { site, clock, sound, makeSpeech } = deps
  const { tests, series = [] } = site.catalogue
  const orderable: readonly Orderable[] = [...tests, ...series]
  const search = createTestSearch({ ...site.catalogue, tests: orderable })
  /** Of who spoke too long ago to be this shift's, nothing is learned. */
  const person = (): CheckedPerson | undefined => {
    const { settings, ownVoice } = store.getState()
    const collectorId = collectorIdOf(settings)
    const isSaid = whoDraws(settings, clock.read().wall_ms) === 'said'
    if (collectorId === undefined || !isSaid) return undefined
    return { collectorId, voice: ownVoice.own, phrases: ownBook(site.phrases, ownVoice.own) }
  }
  return {
    site,
    now_ms: () => clock.read().wall_ms,
    searchTests: (typed) =>
      search(typed).map(({ test: { code, name, aliases }, ...how }) => ({
        code,
        name,
        aliases,
        ...how,
      })),
    testName: (code) => orderable.find((each) => each.code === code)?.name ?? code,
    scenarios: deps.scenarios,
    scorePracticeDraw: createScorePracticeDraw(site, deps.scenarios, deps.sha256),
    manifest: (pack) => manifestFor(pack, store.getState().settings.siteName, site, deps.sha256),
    laterActs: (log) => laterActs(log, site),
    micCheck: createMicCheck({
      clock,
      phrases: site.phrases,
      texts: site.texts.voice,
      makeSpeech: () => makeSpeech(store.getState().settings),
      onHeard: () => sound.chime('heard'),
      person,
      onLearned: (collectorId, found) => void actions.ownVoice.learn(collectorId, found),
    }),
    phraseTrial: createPhraseTrial(site.phrases, site.words, site.texts.voice, () =>
      deps.page.readText(LEXICON),
    ),
    intake: createIntake(deps.jobs, site),
    reader: deps.reader,
    earpiece: deps.earpiece,
    readers: deps.readers,
    leaflets: deps.leaflets,
    hasVoice: deps.hasVoice,
    page: deps.page,
  }
}
