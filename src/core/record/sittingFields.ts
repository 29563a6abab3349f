import { sittingKey, type SittingPart } from '../order/sitting.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import { joined, type Fields, type NoteWords } from './noteWords.ts'
import { waitingHolds } from './seriesHolds.ts'
import { timePointsOf, type TubeTimePoint } from './sittingFacts.ts'

/** What a draw is within the series of its order, what was told of the series, and when the last dose was. */
export function sittingFields(facts: DrawFacts, words: NoteWords): Fields {
  const { sitting, preparation, drawId } = facts.opened
  const begun =
    sitting && sitting.series !== '' && sitting.series !== drawId
      ? [words.say('sitting', 'begun', { drawId: sitting.series })]
      : []
  const minutes = sitting?.practice?.hour_min
  const rehearsed =
    minutes === undefined ? [] : [words.say('sitting', 'practice', { minutes: String(minutes) })]
  return {
    sitting: joined([
      ...(sitting?.parts ?? []).map((part) => partText(part, words)),
      ...begun,
      ...rehearsed,
    ]),
    moments: joined(momentTexts(facts, words)),
    leftOut: joined(leftOutTexts(facts, words)),
    held: joined(waitingHolds(facts).map(({ why }) => words.word('hold', why))),
    wentOn: joined(goAheadTexts(facts, words)),
    lastDoses: joined(
      (preparation.lastDoses ?? []).map(({ test, at }) =>
        words.say('lastDose', at === undefined ? 'notKnown' : 'known', {
          test: words.testName(test),
          at: at?.replace('T', ' '),
        }),
      ),
    ),
  }
}

/** `1 h (2 of 3), due 10:32:00, 7 min late`: the time point of a tube, told against the time it was drawn. */
export function timePointText(
  fact: TubeFact,
  facts: DrawFacts,
  words: NoteWords,
): string | undefined {
  return joined(timePointsOf(facts, fact).map((point) => pointText(point, facts, words)))
}

function pointText(
  { part, punctuality }: TubeTimePoint,
  facts: DrawFacts,
  words: NoteWords,
): string {
  const { point, number, of, from } = part
  const name = words.say('sitting', 'part', { name: point, number: String(number), of: String(of) })
  if (!punctuality)
    return from === undefined ? name : `${name}, ${words.word('sitting', 'noMoment')}`
  const dose = facts.moments.findLast(({ moment }) => moment === 'nextDose')
  const due =
    from === 'nextDose' && dose
      ? words.say('sitting', 'beforeDose', { at: timeAt(dose.at_ms, facts, words) })
      : words.say('sitting', 'due', { at: timeAt(punctuality.due_ms, facts, words) })
  const by_min = String(punctuality.by_min)
  return `${name}, ${due}, ${words.say('sitting', punctuality.verdict, { by_min })}`
}

const partText = ({ name, point, number, of }: SittingPart, words: NoteWords): string =>
  words.say('sitting', 'part', {
    name: `${name}: ${point}`,
    number: String(number),
    of: String(of),
  })

const timeAt = (at_ms: number, { openedAt }: DrawFacts, words: NoteWords): string | undefined =>
  words.at({ ...openedAt, at_ms })

/** Every word on a moment, the first as well as what corrects it. */
function momentTexts(facts: DrawFacts, words: NoteWords): readonly string[] {
  return facts.moments.map((told, index) => {
    const again = facts.moments.slice(0, index).some(({ moment }) => moment === told.moment)
    const fields = {
      moment: words.word('moment', told.moment),
      at: timeAt(told.at_ms, facts, words),
      told: words.at(told.told),
    }
    const text = words.say('sitting', again ? 'corrected' : 'told', fields)
    return told.why === undefined ? text : `${text}: ${told.why}`
  })
}

/** Who let the series go on: told when this draw was opened, or in its record. */
function goAheadTexts({ opened, wentOn }: DrawFacts, words: NoteWords): readonly string[] {
  const before = opened.sitting?.wentOn ?? []
  return [...before, ...wentOn].map(({ holds, by, why }) => {
    const after = [...new Set(holds.map((hold) => words.word('hold', hold.why)))].join(', ')
    return words.say('sitting', 'wentOn', { after, by, why })
  })
}

/** What will not be drawn, and why. */
function leftOutTexts({ opened, leftOut }: DrawFacts, words: NoteWords): readonly string[] {
  const { parts = [], later = [] } = opened.sitting ?? {}
  return leftOut.map(({ sittings, why, at }) => {
    const keys = new Set(sittings.map(sittingKey))
    const points = [...parts, ...later].filter((part) => keys.has(sittingKey(part)))
    return words.say('sitting', 'leftOut', {
      points: points.map((part) => partText(part, words)).join(', '),
      why,
      at: words.at(at),
    })
  })
}
