import { NO_OWN_VOICE } from '../../src/app/view/ownVoiceView.ts'
import { NO_BENCH } from '../../src/app/view/benchViewTypes.ts'
import type { AppState } from '../../src/app/appApi.ts'
import { NO_COUNT, NO_COURIER } from '../../src/app/view/courierView.ts'
import { NO_HAND_OVER } from '../../src/app/view/handOverView.ts'
import { NO_DAY } from '../../src/app/view/dayViewTypes.ts'
import type { OrderDraft } from '../../src/app/order/orderDraft.ts'
import type {
  ChoiceView,
  ClockView,
  DrawView,
  RackTubeView,
} from '../../src/app/view/drawViewTypes.ts'
import type { Command, PlainCommand } from '../../src/core/protocol/commands.ts'
import { PLAN } from './plans.ts'
import { NO_FIGURES } from '../../src/app/figures/figuresView.ts'
import { LOCK_OFF } from '../../src/app/lock/lockView.ts'
import { DEFAULT_SETTINGS } from '../../src/app/site/settings.ts'

/** Everything here is invented: people, site, order, volumes. */

export function choice(
  command: PlainCommand | Command,
  label: string,
  phrase = '',
  more: Partial<ChoiceView> = {},
): ChoiceView {
  return {
    command: typeof command === 'string' ? { type: command } : command,
    label,
    phrases: phrase ? [phrase] : [],
    place: 'sheet',
    tone: 'plain',
    ...more,
  }
}

const mainChoice = (command: PlainCommand, label: string, phrase: string): ChoiceView =>
  choice(command, label, phrase, { place: 'main', tone: 'go', key: 'Space' })

const stop = { tone: 'stop' } as const

const ALWAYS: readonly ChoiceView[] = [
  choice('sayAgain', 'Say again', 'say again'),
  choice('goBack', 'Go back', 'go back', { key: 'Backspace' }),
  choice('howLong', 'How long', 'how long'),
  choice('pauseListening', 'Pause listening', 'pause listening'),
  choice('stopEverything', 'Stop everything', 'stop everything', { ...stop, key: '0' }),
  choice('faint', 'Feeling faint', 'feeling faint', stop),
  choice('sharpPain', 'Sharp pain', 'sharp pain', stop),
  choice('swelling', 'Site swelling', 'site swelling', stop),
  choice('needlestick', 'I was pricked', 'stuck myself', stop),
]

const bandClock = (seconds: number, state: ClockView['state'], says: string): ClockView => ({
  id: 'band',
  kind: 'band',
  label: 'Band (tourniquet) on for',
  text: `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`,
  value_ms: seconds * 1000,
  limit_ms: 60_000,
  direction: 'up',
  state,
  says,
})

const fillClock: ClockView = {
  id: 'fill',
  kind: 'fill',
  label: 'Tube 2 filling',
  text: '0:06',
  value_ms: 6000,
  limit_ms: 14_000,
  direction: 'up',
  state: 'running',
  says: 'full in 8 to 13 s',
}

const STATUS: readonly (readonly [RackTubeView['status'], string])[] = [
  ['mixed', 'Mixed'],
  ['mixed', 'Discarded'],
  ['on', 'Filling now'],
  ['next', 'Next'],
  ['waiting', 'Waiting'],
]

const RACK: readonly RackTubeView[] = PLAN.tubes.map((planned, i) => {
  const [status, statusText] = STATUS[i] ?? ['waiting', 'Waiting']
  const { id, name, closure, nominal_mL, least_mL } = planned
  const view: RackTubeView = {
    ...{ id, name, closure, nominal_mL, least_mL, fill_mL: nominal_mL, status, statusText },
    number: i + 1,
    tests: planned.tests.join(', ') || name,
    handling: i === 4 ? [{ mark: 'ice', words: 'on ice at once' }] : [],
    isRedrawn: false,
    isDiscard: planned.role === 'discard',
    shape: planned.role === 'culture' ? 'bottle' : 'tube',
    blood_mL: i < 2 ? nominal_mL : 0,
  }
  if (status !== 'on') return view
  return { ...view, filling: { id, elapsed_ms: 2000, length_ms: 6000, isHeld: false } }
})

const RULER: DrawView['ruler'] = {
  where: 'tube 3 of 5',
  marks: [
    { seq: 12, look: 'band', text: 'band on', isOpen: true },
    { seq: 14, look: 'needle', text: 'needle in' },
    { seq: 16, look: 'tube', text: '1 blue', closure: 'blue' },
    { seq: 19, look: 'tube', text: '2 white', closure: 'white' },
    { seq: 22, look: 'tube', text: '3 light blue', closure: 'light blue' },
  ],
}

export const FILLING: DrawView = {
  drawId: 'd1',
  invented: true,
  patientLine: 'Marlo Quince · born 11 Feb 1984 · record 00417',
  identifiers: [
    { label: 'Full name', value: 'Marlo Quince' },
    { label: 'Date of birth', value: '11 Feb 1984' },
    { label: 'Record number', value: '00417' },
  ],
  patient: { before: 'arm', after: 'arm', bandage_min: 15 },
  collectorName: 'R. Ash',
  step: {
    id: 'filling',
    title: 'Tube 3, citrate, 2.7 mL',
    instruction: 'Let it fill to the line, then take it off.',
    points: ['Expect it full in 5 to 9 seconds.', 'Band off while this tube fills.'],
    shown_n: 1,
  },
  mainClock: bandClock(38, 'running', '22 s left'),
  otherClocks: [fillClock],
  otherVoice: choice('tonesOnly', 'Tones instead of words', 'tones only please'),
  choices: [
    mainChoice('tubeFull', 'Tube full', 'tube complete'),
    choice('bandOff', 'Band off', 'band released', { key: '1', place: 'vein' }),
    choice('tubeShort', 'Tube short', 'short tube'),
    choice('tubeMixed', 'Mixed', 'mixing done', { key: '3', place: 'tube' }),
    choice('slowFlow', 'Slow flow', 'slow flow', { key: '2', place: 'flow' }),
    choice('flowLost', 'Flow stopped', 'flow stopped'),
    choice('noVacuum', 'No vacuum', 'no vacuum'),
    choice('veinRolled', 'Vein rolled', 'vein rolled'),
    choice('wrongTube', 'Wrong tube', 'wrong tube'),
    choice('needleOut', 'Needle out', 'needle out', { key: '5', place: 'needleOut' }),
  ],
  always: ALWAYS,
  happened: [
    choice('droppedTube', 'A tube was dropped', 'tube dropped'),
    choice('unlabelledTube', 'A tube has no label'),
    choice('bandOn', 'Band went on', 'band on'),
    choice('fistSeen', 'Patient pumped the fist'),
    choice('interrupted', 'We were interrupted'),
    choice('withdrawConsent', 'Patient withdraws consent', 'consent withdrawn', stop),
  ],
  rack: RACK,
  ruler: RULER,
  labels: [],
  heard: { text: 'next one on', outcome: 'accepted', at_ms: 0 },
  noArmLeft: false,
  listening: { state: { kind: 'listening' }, level: 0.55 },
}

const plain = ({ mainClock: _clock, ...rest }: DrawView): DrawView => ({ ...rest, otherClocks: [] })

export const IDENTITY: DrawView = {
  ...plain(FILLING),
  step: {
    id: 'identity',
    title: 'Who is in the chair',
    instruction: 'Ask for the full name and date of birth. Let the patient say them.',
    points: ['Do not read them out to be agreed with.'],
    shown_n: 1,
  },
  choices: [
    mainChoice('confirmPatient', 'Both match', 'patient confirmed'),
    choice('refuseIdentity', 'Does not match', 'wrong patient', {
      ...stop,
      key: '4',
      place: 'patient',
    }),
  ],
  heard: { text: 'skin clean', outcome: 'refused', at_ms: 0 },
}

export const OVER: DrawView = {
  ...FILLING,
  step: {
    ...FILLING.step,
    id: 'release',
    title: 'Band (tourniquet)',
    instruction: 'Take the band off now.',
    points: ['The tube may stay on.'],
    shown_n: 1,
  },
  mainClock: bandClock(72, 'up', 'over by 0:12'),
  choices: [
    mainChoice('bandOff', 'Band off', 'band released'),
    choice('tubeFull', 'Tube full', 'tube complete', { key: '3', place: 'tube' }),
  ],
  notice: { tone: 'warn', text: 'Over a minute. It stands in the record.', large: 'Band off now.' },
  noArmLeft: false,
  listening: {
    state: { kind: 'trouble', code: 'tooLoud' },
    level: 0.9,
    advice: 'The room is too loud. Use touch or keys.',
  },
  heard: { text: 'something like “band”', outcome: 'unclear', at_ms: 0 },
}

export const SEVERE: DrawView = {
  ...FILLING,
  severe: {
    kind: 'sharpPain',
    title: 'Sharp or shooting pain',
    instruction: 'Take the band off. Take the needle out now.',
    points: ['Do not probe. Do not try this arm again.', 'Press with gauze.'],
    checklist: [
      { text: 'Band off', isDone: false },
      { text: 'Needle out', isDone: false },
    ],
    isUrgent: true,
  },
  choices: [
    mainChoice('needleOut', 'Needle is out', 'needle out'),
    choice('bandOff', 'Band is off', 'band released', { key: '1', place: 'vein' }),
  ],
}

export const ASK: DrawView = {
  ...FILLING,
  ask: {
    large: 'Stop the draw?',
    question: 'Stop the whole draw for good?',
    yes: choice('confirmYes', 'Yes, stop', 'yes stop now', { ...stop, place: 'answer' }),
    no: choice('confirmNo', 'No, go on', 'no go on', { key: 'Backspace', place: 'main' }),
    others: [],
  },
}

export const LABELS: DrawView = {
  ...plain(FILLING),
  step: {
    id: 'labels',
    title: 'Beside the patient',
    instruction: 'Label every tube and read each one back.',
    points: [],
    shown_n: 1,
  },
  choices: [
    mainChoice('labelMatches', 'This one matches', 'label matches'),
    choice('labelWrong', 'Does not match', 'label wrong', { ...stop, key: '3', place: 'tube' }),
    choice('labelsDone', 'All labels done', 'labels done', { place: 'answer' }),
  ],
  labels: [
    {
      tubeId: 't1',
      tubeName: 'Culture bottle, aerobic',
      number: 'QX-0107-1',
      readBack: true,
    },
    { tubeId: 't3', tubeName: 'Citrate tube', number: 'QX-0107-3', readBack: false },
    { tubeId: 't4', tubeName: 'Serum gel tube', number: 'QX-0107-4', readBack: false },
  ],
}

export const CLOSED: DrawView = {
  ...plain(FILLING),
  step: {
    id: 'finished',
    title: 'Finished',
    instruction: 'The draw is complete.',
    points: [],
    shown_n: 1,
  },
  choices: [],
  closed: { outcome: 'complete', text: 'Five tubes, 21.7 mL. The record is closed.' },
}

export const DRAFT: OrderDraft = {
  invented: true,
  ...{ fullName: '', familyName: 'Quince', givenNames: 'Marlo', oneName: false },
  birthDate: '1984-02-11',
  recordNumber: '00417',
  sex: '',
  weight_kg: '',
  haematocrit_pct: '',
  orderNumber: 'X-2001',
  provider: 'Dr. Wren Oakes',
  ...{ providerNumber: '', orderedAt: '', ward: '', visitNumber: '', bandNumber: '' },
  priority: 'routine',
  tests: ['CBC', 'GLU'],
  lastDoses: {},
  moments: {},
  fasted_h: '',
  anticoagulant: 'none',
  latexAllergy: 'no',
  antisepticAllergy: 'none',
  antisepticAllergyToo: '',
  restrictionLeft: '',
  restrictionRight: '',
  faintedBefore: 'no',
  earlierDraws_mL: '',
  bornAt: '',
  lastFeedAt: '',
  feeding: '',
  transfused: '',
  collecting: 'venous',
  patientLanguage: '',
  needleSet: { kind: 'winged', gauge: 21, needle_mm: 19, tubing_mm: 300, tubingBore_mm: 1 },
  questions: [],
  served: undefined,
}

export const STATE: AppState = {
  screen: { name: 'home' },
  ownVoice: NO_OWN_VOICE,
  stock: undefined,
  settings: { ...DEFAULT_SETTINGS, siteName: 'Invented practice', collectorName: 'R. Ash' },
  draft: DRAFT,
  draftErrors: [],
  plan: PLAN,
  approvals: [],
  sittings: [],
  resumed: undefined,
  series: [],
  seriesNow_ms: 0,
  dues_ms: [],
  seriesClockStep_ms: 0,
  bench: NO_BENCH,
  others: [],
  clinic: undefined,
  clinicSetup: undefined,
  clinicMoved: undefined,
  draw: FILLING,
  importQuestion: undefined,
  origins: new Map(),
  keys: { own: undefined, trusted: [] },
  records: new Map(),
  digests: new Map(),
  figures: NO_FIGURES,
  day: NO_DAY,
  handOver: NO_HAND_OVER,
  courier: NO_COURIER,
  count: NO_COUNT,
  draws: [
    {
      drawId: 'd1',
      opened_ms: 1_795_000_000_000,
      closed: false,
      patientName: 'Marlo Quince',
      invented: true,
    },
    {
      drawId: 'd0',
      opened_ms: 1_794_900_000_000,
      closed: true,
      patientName: 'Tamsin Vale',
      invented: true,
    },
  ],
  trouble: undefined,
  unsaved: undefined,
  soundTrouble: undefined,
  earTrouble: undefined,
  lock: LOCK_OFF,
  left: [],
  storageKept: undefined,
  wake: 'off',
  version: 'current',
  keptAt: undefined,
  between: undefined,
}

export const DECISION: DrawView = {
  ...plain(FILLING),
  step: {
    id: 'decision',
    title: 'Not prepared as asked',
    instruction: 'Tell the provider. Somebody named decides.',
    points: ['Ate two hours ago; 8 hours were asked for.'],
    shown_n: 1,
  },
  choices: [],
}
