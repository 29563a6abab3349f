import { FULL_BENCH } from './benchView.ts'
import type { AppState } from '../../src/app/appApi.ts'
import { texts } from './language.ts'
import { STOPPED_PLAN } from './plans.ts'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { SAMPLE_START_ms, sampleLog } from './sampleLog.ts'
import { sampleSeries } from './sampleSeries.ts'
import { KNOWN_VOICE, SAID, SAMPLE_OFFER, SAMPLE_VOICE } from './sampleVoice.ts'
import { shippedSite } from './site.ts'
import * as views from './views.ts'

const DRAW = { name: 'draw', drawId: views.FILLING.drawId } as const
const OGTT = planSittings({
  ...shippedSite,
  ...shippedSite.demo,
  order: { ...shippedSite.demo.order, tests: ['ogtt75'] },
  today: '2026-11-25',
})
const LOG = sampleLog({ opening: { invented: true } })
const STUCK = sampleLog({
  opening: { invented: true },
  add: [[172, { type: 'exceptionRaised', kind: 'needlestick' }]],
})
const records = new Map([[LOG.drawId, LOG]])

const UNSAVED: AppState['unsaved'] = {
  since_ms: 0,
  entries: 3,
  drawIds: ['d1'],
  text: 'Not saved: 3 entries since 09:00. Saving is tried again; keep this page open.', // prettier-ignore
  why: 'The storage of this browser is full.',
}
const SILENT = texts.voice.sound.chimesMissing
const EAR_GONE = {
  what: 'The earpiece is gone (Invented Buds Pro).',
  advice: texts.voice.ear.advice.quiet,
}

/** Every screen with invented content, by name. */
export const SCENES: Readonly<Record<string, Partial<AppState>>> = {
  home: {},
  trouble: { trouble: 'The record could not be saved: the device is out of space.' },
  order: { screen: { name: 'order' } },
  orderErrors: {
    screen: { name: 'order' },
    draft: { ...views.DRAFT, familyName: '', tests: [] },
    draftErrors: [
      { field: 'familyName', text: 'Give the patient’s family name.' },
      { field: 'tests', text: 'Add at least one test.' },
    ],
  },
  timedSamples: {
    series: [sampleSeries([[400, { type: 'momentNoted', moment: 'drinkFinished' }]])],
    seriesNow_ms: SAMPLE_START_ms + 70 * 60_000,
  },
  bench: { screen: { name: 'bench' }, bench: FULL_BENCH },
  benchEmpty: { screen: { name: 'bench' } },
  plan: { screen: { name: 'plan' } },
  planOfSeries: { screen: { name: 'plan' }, plan: OGTT[0].plan, sittings: OGTT },
  planStopped: { screen: { name: 'plan' }, plan: STOPPED_PLAN },
  filling: { screen: DRAW, draw: views.FILLING },
  identity: { screen: DRAW, draw: views.IDENTITY },
  over: { screen: DRAW, draw: views.OVER },
  severe: { screen: DRAW, draw: views.SEVERE },
  ask: { screen: DRAW, draw: views.ASK },
  labels: { screen: DRAW, draw: views.LABELS },
  closed: {
    screen: { name: 'draw', drawId: LOG.drawId },
    draw: { ...views.CLOSED, drawId: LOG.drawId },
    records,
  },
  unsaved: { screen: DRAW, draw: views.FILLING, unsaved: UNSAVED, soundTrouble: SILENT },
  homeUnsaved: { unsaved: UNSAVED, soundTrouble: SILENT, trouble: 'The log is refused.' },
  // A view as no code would make it: drawing it throws.
  broken: { screen: DRAW, draw: { ...views.OVER, rack: undefined as never } },
  catalogue: { screen: { name: 'catalogue' } },
  decision: { screen: DRAW, draw: views.DECISION },
  practice: { screen: { name: 'practice' } },
  chart: { screen: { name: 'chart', drawId: LOG.drawId }, records },
  exposure: { screen: { name: 'exposure', drawId: STUCK.drawId }, records: new Map([[STUCK.drawId, STUCK]]) }, // prettier-ignore
  labelSheet: { screen: { name: 'labels', drawId: LOG.drawId, from: 'chart' }, records },
  noRecord: { screen: { name: 'chart', drawId: 'gone' } },
  closedWithOffer: {
    screen: { name: 'draw', drawId: LOG.drawId },
    draw: { ...views.CLOSED, drawId: LOG.drawId },
    records,
    ownVoice: { own: SAMPLE_VOICE, others: 0, offer: { ...SAMPLE_OFFER, drawId: LOG.drawId } },
  },
  micCheck: { screen: { name: 'micCheck' } },
  micCheckKnown: { ...SAID, screen: { name: 'micCheck' }, ownVoice: KNOWN_VOICE },
  settings: { screen: { name: 'settings' } },
  settingsDiscreet: {
    screen: { name: 'settings' },
    settings: {
      ...views.STATE.settings,
      ...{
        discreet: true,
        tonesOnly: true,
        earId: 'ear',
        earName: 'Invented Buds Pro (Bluetooth)',
      },
    },
    earTrouble: EAR_GONE,
  },
  settingsKnown: { ...SAID, screen: { name: 'settings' }, ownVoice: KNOWN_VOICE },
}
