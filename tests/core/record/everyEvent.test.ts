import { USUAL_SETS } from '../../../src/core/order/usualSets.ts'
import { describe, expect, it } from 'vitest'
import type { DrawEvent, DrawEventType } from '../../../src/core/protocol/events.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import {
  sampleLog,
  sampleOpening,
  secondCollector,
  straightLines,
  type Line,
} from '../../support/sampleLog.ts'

/** One event of each type; the compiler asks for a new one. Those of the straight draw stand in it already. */
const EXAMPLES: {
  readonly [Type in DrawEventType]: Extract<DrawEvent, { type: Type }> | 'straight'
} = {
  drawOpened: 'straight',
  identifierChecked: 'straight',
  consentGiven: 'straight',
  consentRefused: { type: 'consentRefused' },
  preparationChecked: 'straight',
  notPrepared: { type: 'notPrepared', what: 'ate an hour ago' },
  decisionNamed: { type: 'decisionNamed', decision: 'proceed', by: 'Dr. Pat Placeholder' },
  suppliesChecked: 'straight',
  handsReady: 'straight',
  siteChosen: 'straight',
  bandOn: 'straight',
  bandOff: 'straight',
  skinCleaned: 'straight',
  skinDry: 'straight',
  punctureBegun: { type: 'punctureBegun', number: 2 },
  needleIn: 'straight',
  positionTaken: 'straight',
  handsCleaned: 'straight',
  armSeen: { type: 'armSeen', arm: 'left', finding: 'bruise' },
  answerTaken: { type: 'answerTaken', answer: { latexAllergy: true } },
  needleSetChosen: { type: 'needleSetChosen', set: USUAL_SETS.winged23 },
  flashSeen: 'straight',
  syringeFilled: { type: 'syringeFilled', fill: 'full', planned_mL: 8.2 },
  transferOn: { type: 'transferOn' },
  warmOn: { type: 'warmOn' },
  siteWarm: { type: 'siteWarm' },
  lanced: { type: 'lanced', attempt: 1 },
  wentToVein: { type: 'wentToVein', why: 'notEnough' },
  dropWiped: { type: 'dropWiped' },
  squeezeNoted: { type: 'squeezeNoted' },
  tubeOn: 'straight',
  tubeOff: 'straight',
  tubeMixed: 'straight',
  tubeHandled: { type: 'tubeHandled', tubeId: 't3', how: 'ice' },
  cardChecked: { type: 'cardChecked' },
  circleFilled: { type: 'circleFilled', tubeId: 't3', finding: 'good' },
  cardDried: { type: 'cardDried', tubeId: 't3' },
  tubeFell: { type: 'tubeFell', tubeId: 't3' },
  unlabelledSettled: { type: 'unlabelledSettled', tubeId: 't3', how: 'sentAsIs', by: 'Robin' },
  bloodApproved: { type: 'bloodApproved', by: 'Dr. Pat Placeholder', why: 'sepsis' },
  tubeSwapped: { type: 'tubeSwapped', tubeId: 't3', why: 'noVacuum' },
  lastTubeOff: 'straight',
  needleOut: 'straight',
  shieldClicked: 'straight',
  sharpsDone: 'straight',
  pressureOn: 'straight',
  bleedingStopped: 'straight',
  bandageOn: 'straight',
  labelReadBack: 'straight',
  lotRead: { type: 'lotRead', tubeId: 't2', lot: 'READ-2', expires: '2028-01-31', how: 'scan' },
  accessionTaken: { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' },
  noFurtherPuncture: { type: 'noFurtherPuncture' },
  labelsDone: 'straight',
  aftercareTold: 'straight',
  specimensRacked: 'straight',
  spinStarted: { type: 'spinStarted', tubeIds: ['t2'] },
  spinEnded: { type: 'spinEnded', tubeIds: ['t2'] },
  separated: { type: 'separated', tubeIds: ['t2'] },
  aliquoted: { type: 'aliquoted', tubeIds: ['t2'], portions: 2 },
  stored: { type: 'stored', tubeIds: ['t2'], where: 'fridge' },
  bagged: { type: 'bagged', tubeIds: ['t2'], bag: 'B1' },
  courierTook: { type: 'courierTook' },
  droppedOff: { type: 'droppedOff', tubeIds: ['t2'], to: 'Front desk' },
  labReceived: { type: 'labReceived', tubeIds: ['t2'] },
  labRejected: { type: 'labRejected', tubeIds: ['t2'], reason: 'RH' },
  momentNoted: { type: 'momentNoted', moment: 'drinkFinished' },
  sittingsLeftOut: {
    type: 'sittingsLeftOut',
    sittings: [{ code: 'ogtt75', number: 2 }],
    why: 'vomited the drink',
  },
  seriesWentOn: {
    type: 'seriesWentOn',
    holds: [{ drawId: 'D1', why: 'faint', nth: 1 }],
    by: 'Dr. Pat Placeholder',
    why: 'well again, wants to go on',
  },
  exceptionRaised: { type: 'exceptionRaised', kind: 'nausea' },
  exceptionEnded: { type: 'exceptionEnded', kind: 'faint', how: 'exceptionHandled' },
  colleagueTook: { type: 'colleagueTook' },
  collectorChanged: { type: 'collectorChanged', to: secondCollector },
  fistNoted: { type: 'fistNoted' },
  noteAdded: { type: 'noteAdded', text: 'Patient asked for water.' },
  patientLanguageChosen: { type: 'patientLanguageChosen', language: 'es' },
  exposureNoted: { type: 'exposureNoted', text: 'Washed at once.' },
  flagRaised: { type: 'flagRaised', flag: 'skinNotDry' },
  cueGiven: { type: 'cueGiven', clock: 'band#1@1764057600000', cue: 'up', late_ms: 3 },
  clockStepped: { type: 'clockStepped', by_ms: 3_600_000 },
  awayNoticed: { type: 'awayNoticed', away_ms: 600_000, bandWasOn: false },
  planRevised: { type: 'planRevised', plan: { ...samplePlan(), tubes: [] }, why: 'furtherNeedle' },
  entryUndone: { type: 'entryUndone', seq: 4 },
  drawClosed: 'straight',
  addendumMade: {
    type: 'addendumMade',
    by: secondCollector,
    text: 'The left arm was the right arm.',
    why: 'typing slip',
  },
}

/** What leaves no words of its own in the chart note, and why. */
const LEAVES_NONE: Readonly<Partial<Record<DrawEventType, string>>> = {
  noFurtherPuncture: 'the outcome and the tubes that were not drawn tell it',
  cueGiven: 'what the app called out, not what anybody did',
  colleagueTook: 'the name of whoever took over tells it: without it no draw is closed',
  exposureNoted: 'it is about the person who drew and stands in the exposure record',
}

/** The note but for its last line of the log, whose count and hash change with any entry. */
function words(log: ReturnType<typeof sampleLog>): string {
  return writeNote(log, noteTemplate)
    .text.split('\n')
    .filter((line) => !/^ {2}Log: /.test(line))
    .join('\n')
}

/** What must stand before an event so that it can be so. */
const BEFORE: Readonly<Partial<Record<DrawEventType, readonly Line[]>>> = {
  exceptionEnded: [[200, { type: 'exceptionRaised', kind: 'faint' }]],
  spinEnded: [[390, { type: 'spinStarted', tubeIds: ['t2'] }]],
  tubeSwapped: [[148.5, { type: 'exceptionRaised', kind: 'noVacuum', tubeId: 't3' }]],
}
const AT_SKIN: readonly DrawEventType[] = [
  'warmOn',
  'siteWarm',
  'lanced',
  'wentToVein',
  'dropWiped',
  'squeezeNoted',
]
const OF_CARD: readonly DrawEventType[] = ['cardChecked', 'circleFilled']
const BY_SYRINGE: readonly DrawEventType[] = ['syringeFilled', 'transferOn']
const AFTER_CLOSE: readonly DrawEventType[] = [
  'addendumMade',
  'spinStarted',
  'spinEnded',
  'separated',
  'aliquoted',
  'stored',
  'bagged',
  'courierTook',
  'droppedOff',
  'labReceived',
  'labRejected',
]

function pair(type: DrawEventType): readonly [withIt: string, without: string] {
  const example = EXAMPLES[type]
  if (example === 'straight') {
    return [words(sampleLog()), words(sampleLog({ without: (event) => event.type === type }))]
  }
  const at_s = AFTER_CLOSE.includes(type) ? 400 : type === 'tubeSwapped' ? 149 : 205
  const before = BEFORE[type] ?? []
  if (OF_CARD.includes(type)) {
    const card = sampleTube('t3', 'filterPaper')
    const plan = samplePlan([sampleTube('t1', 'citrate'), sampleTube('t2', 'activatorGel'), card])
    const opening = sampleOpening({ collecting: 'capillaryHeel', plan })
    return [words(sampleLog({ opening, add: [[at_s, example]] })), words(sampleLog({ opening }))]
  }
  if (AT_SKIN.includes(type)) {
    const opening = sampleOpening({ collecting: 'capillaryHeel' })
    return [words(sampleLog({ opening, add: [[at_s, example]] })), words(sampleLog({ opening }))]
  }
  if (BY_SYRINGE.includes(type)) {
    const opening = sampleOpening({ needleSet: { ...sampleOpening().needleSet, syringe_mL: 10 } })
    return [words(sampleLog({ opening, add: [[at_s, example]] })), words(sampleLog({ opening }))]
  }
  return [
    words(sampleLog({ add: [...before, [at_s, example]] })),
    words(sampleLog({ add: before })),
  ]
}

/** The opening is what the note begins with: without it there is no note. */
const types = (Object.keys(EXAMPLES) as DrawEventType[]).filter((type) => type !== 'drawOpened')

describe('every type of event', () => {
  it.each(types.filter((type) => !(type in LEAVES_NONE)))('%s leaves words in the note', (type) => {
    const [withIt, without] = pair(type)
    expect(withIt).not.toBe(without)
  })

  it.each(Object.entries(LEAVES_NONE))('%s leaves none: %s', (type) => {
    const [withIt, without] = pair(type as DrawEventType)
    expect(withIt).toBe(without)
  })

  it('stands in the straight draw where the table says so', () => {
    const straight = new Set(straightLines(sampleOpening()).map(([, { type }]) => type))
    const said = (Object.keys(EXAMPLES) as DrawEventType[]).filter(
      (type) => EXAMPLES[type] === 'straight',
    )
    expect([...straight].sort()).toEqual(said.sort())
  })
})
