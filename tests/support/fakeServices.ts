import type { AppServices } from '../../src/app/appServices.ts'
import type { MicCheckView } from '../../src/app/voice/micCheckView.ts'
import { laterActs } from '../../src/app/view/laterActs.ts'
import { manifestFor } from '../../src/app/view/manifestFiles.ts'
import { createDirectJobs } from '../../src/adapters/jobs/directJobs.ts'
import { createTestSearch } from '../../src/core/catalogue/testSearch.ts'
import { createIntake, type Intake } from '../../src/app/intake/createIntake.ts'
import { intakeHandlers } from '../../src/app/intake/intakeJobs.ts'
import type { SiteData } from '../../src/app/site/siteData.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import { fakeEarpiece } from './fakeEarpiece.ts'
import { sha256 } from './sampleLog.ts'
import { LEAFLETS } from '../../src/data/languages.ts'
import { fakeReader } from './fakeReader.ts'
import { shippedSite } from './site.ts'

const TESTS = [
  { code: 'CBC', name: 'Complete blood count', aliases: ['full blood count'] },
  { code: 'GLU', name: 'Glucose', aliases: ['blood sugar'] },
  { code: 'PT', name: 'Prothrombin time', aliases: ['INR'] },
  { code: 'TSH', name: 'Thyroid stimulating hormone', aliases: ['thyrotropin'] },
  { code: 'CREA', name: 'Creatinine', aliases: [] },
  { code: 'A1C', name: 'Hemoglobin A1c', aliases: ['glycated hemoglobin'] },
  { code: 'BCUL', name: 'Blood culture', aliases: [] },
]

/** Two names for several tests. */
const SEARCH = { common: ['CBC'], names: [{ words: ['thyroid panel'], tests: ['TSH', 'CREA'] }] }

const order = { tests: ['CBC'], restrictions: {} } as const
const MIC_READY: MicCheckView = { phase: 'ready' }

/** Reads files for a site, at once and on this thread. */
export function intakeFor(site: SiteData): Intake {
  return createIntake(createDirectJobs(intakeHandlers(sha256, verifySignature)), site)
}

/** What the screens stand on, invented but for the shipped site. Nothing is printed, copied or kept. */
export const SERVICES: AppServices = {
  site: shippedSite,
  now_ms: () => Date.UTC(2026, 10, 25),
  searchTests: (typed) =>
    createTestSearch({ tests: TESTS, tubes: [], search: SEARCH })(typed).map(
      ({ test, ...how }) => ({
        ...test,
        ...how,
      }),
    ),
  testName: (code) => TESTS.find((test) => test.code === code)?.name ?? code,
  scenarios: [
    {
      id: 'plain',
      scenario: {
        title: 'A plain draw',
        about: 'Two tubes, nothing goes wrong.',
        order,
        lines: [],
      },
    },
    {
      id: 'faint',
      scenario: {
        title: 'The patient feels faint',
        about: 'In the middle of the second tube.',
        order,
        lines: [],
      },
    },
  ],
  scorePracticeDraw: () => undefined,
  manifest: (pack) => manifestFor(pack, 'Example Clinic', shippedSite, sha256),
  laterActs: (log) => laterActs(log, shippedSite),
  micCheck: {
    current: () => MIC_READY,
    subscribe: () => () => undefined,
    start: () => Promise.resolve(),
    skip: () => undefined,
    stop: () => undefined,
  },
  phraseTrial: {
    commands: [
      { key: 'needleIn', label: 'Needle in' },
      { key: 'bandOn', label: 'Band on' },
    ],
    tryPhrase: () => Promise.resolve([]),
  },
  intake: intakeFor(shippedSite),
  reader: { isThere: () => true },
  earpiece: fakeEarpiece(),
  readers: { en: fakeReader(), es: fakeReader() },
  leaflets: LEAFLETS,
  hasVoice: true,
  page: {
    print: () => undefined,
    copyText: () => Promise.resolve(true),
    saveText: () => undefined,
  },
}
