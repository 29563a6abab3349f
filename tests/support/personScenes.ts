import type { AppState } from '../../src/app/appApi.ts'
import { micReasonText, type MicCheckView } from '../../src/app/voice/micCheckView.ts'
import type { DayScene } from './dayScene.ts'
import { fakeEarpiece } from './fakeEarpiece.ts'
import { fakeReader } from './fakeReader.ts'
import { LANGUAGE, texts } from './language.ts'
import { sampleLog } from './sampleLog.ts'
import { KNOWN_VOICE, SAID } from './sampleVoice.ts'
import { SCENES } from './scenes.ts'
import { SERVICES } from './fakeServices.ts'
import { STATE } from './views.ts'

/** Nobody has used this device yet. */
const FIRST = { draws: [], draw: undefined } as const
const CLOSED = sampleLog({ opening: { patientLanguage: 'es' } })

/** Somebody of an earlier shift is named. */
const OLD: Partial<AppState> = {
  settings: { ...STATE.settings, collectorName: 'Robin Example', collectorInitials: 'RE' },
}

/** Whatever can be set is set, and some of it is not there: as long as these settings can be. */
const ALL_SET: Partial<AppState> = {
  ...SAID,
  screen: { name: 'settings' },
  ownVoice: KNOWN_VOICE,
  settings: {
    ...STATE.settings,
    ...SAID.settings,
    // Another one than is shown: it waits for the end of a draw.
    language: LANGUAGE === 'en' ? 'es' : 'en',
    ...{ voiceOn: true, discreet: true, tonesOnly: true, heldBar: true, heldRequired: true },
    ...{ heldKey: 'PageDown', speechModel: 'clinic-model-1.tar.gz' },
    ...{ earId: 'ear', earName: 'Invented Buds Pro (Bluetooth)' },
  },
  earTrouble: {
    what: texts.voice.ear.what.gone.replace('{name}', 'Invented Buds Pro (Bluetooth)'),
    advice: texts.voice.ear.advice.quiet,
  },
}

/** The outputs as a browser of each kind offers them. */
function earpiece(choosing: 'list' | 'asked' | 'none') {
  const fake = fakeEarpiece()
  fake.choosing = choosing
  fake.outputs = [{ id: 'table', name: 'Invented table speaker' }]
  return fake
}

/** The microphone check at a moment. */
const checked = (view: MicCheckView): DayScene => ({
  state: { ...SAID, screen: { name: 'micCheck' }, ownVoice: KNOWN_VOICE },
  services: { micCheck: { ...SERVICES.micCheck, current: () => view } },
})

const reasons = [{ code: 'missed', n: 2 }, { code: 'loudRoom' }, { code: 'tooSoft' }] as const

/** Screens of whoever draws and of the patient: language, ears, voice and what is taken home. */
export const PERSON_SCENES: Readonly<Record<string, () => DayScene>> = {
  whoDrawsAsked: () => ({ state: FIRST, press: ['.whoDraws .button'] }),
  whoDrawsOld: () => ({ state: { ...FIRST, ...OLD } }),
  planAskedWho: () => ({
    state: { ...SCENES.plan, ...OLD, draft: { ...STATE.draft, invented: false } },
  }),
  planForPatient: () => ({ state: SCENES.plan ?? {} }),
  settingsAll: () => ({ state: ALL_SET, services: { earpiece: earpiece('list') } }),
  settingsEarAsked: () => ({
    state: { ...ALL_SET, earTrouble: undefined },
    services: { earpiece: earpiece('asked'), hasVoice: false },
  }),
  settingsEarNone: () => ({
    state: { screen: { name: 'settings' } },
    services: { earpiece: earpiece('none'), hasVoice: false, reader: { isThere: () => false } },
  }),
  micCheckRoom: () => checked({ phase: 'room', level: 0.2 }),
  micCheckAsking: () =>
    checked({ phase: 'asking', phrase: 'patient confirmed', number: 2, of: 6, level: 0.6, transcript: 'patient confirmed' }), // prettier-ignore
  micCheckPoor: () =>
    checked({
      phase: 'done',
      kind: 'check',
      verdict: { verdict: 'poor', reasons: reasons.map((each) => micReasonText(each, texts.voice)) }, // prettier-ignore
      right: 3,
      asked: 6,
    }),
  micCheckLearned: () => ({
    ...checked({
      phase: 'done',
      kind: 'learn',
      verdict: { verdict: 'good', reasons: [] },
      right: 12,
      asked: 12,
    }),
    press: ['.ownVoice summary'],
  }),
  voiceForget: () => ({ state: SCENES.micCheckKnown ?? {}, press: ['.ownVoice > .button'] }),
  voiceUnknown: () => ({ state: { screen: { name: 'micCheck' }, ownVoice: KNOWN_VOICE } }),
  closedWithOffer: () => ({ state: SCENES.closedWithOffer ?? {} }),
  chartForPatient: () => ({
    state: {
      screen: { name: 'chart', drawId: CLOSED.drawId },
      records: new Map([[CLOSED.drawId, CLOSED]]),
    },
    services: { readers: { en: fakeReader(), es: fakeReader() } },
  }),
}
