import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { readCue } from '../../src/core/protocol/cueId.ts'
import { clocksOf } from '../../src/core/protocol/clocks.ts'
import { shown_ms } from '../../src/core/protocol/dueCues.ts'
import { isSevere } from '../../src/core/protocol/exceptionTable.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import { stepOf } from '../../src/core/protocol/steps.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { minutesSeconds } from '../../src/core/time/format.ts'
import type { Moment, ScenarioWords } from './scenarioWords.ts'
import type { ExpectKind } from '../../src/core/scenario/scenario.ts'
import { plain } from '../../src/core/scenario/vocabulary.ts'

/** Holds one expectation against the draw. Says what was found instead, or `undefined` when it is as expected. */
export function checkExpectation(
  what: ExpectKind,
  text: string,
  moment: Moment,
  words: ScenarioWords,
): string | undefined {
  const { draw } = moment
  const s = draw.state()
  const same = (found: string): string | undefined =>
    plain(found) === plain(text) ? undefined : found
  switch (what) {
    case 'screen':
      return same(screenTitle(s, words))
    case 'step':
      return same(stepTitle(s, words))
    case 'ask':
      return same(moment.ask ? words.asks[moment.ask] : 'no question')
    case 'refused':
      return same(moment.refused ?? 'not refused')
    case 'flag':
      return among(text, newFlags(moment, words), 'no flag')
    case 'no flag':
      return newFlags(moment, words).find((flag) => plain(flag) === plain(text))
    case 'cue':
      return among(text, newCues(moment, words), 'no cue')
    case 'clock':
      return among(text, clockTexts(moment, words), 'no clock')
    case 'outcome':
      return same(s.closed ? words.outcomes[s.closed.outcome] : 'still open')
    case 'chart':
      return chartLines(moment, words).some((line) => line.includes(text))
        ? undefined
        : 'no such line'
    case 'no chart':
      return chartLines(moment, words).find((line) => line.includes(text))
  }
}

/** The title on the screen: what is severe takes it over. */
function screenTitle(s: DrawState, words: ScenarioWords): string {
  const severe = s.exceptions.findLast(({ kind }) => isSevere(kind))
  return severe ? words.exceptions[severe.kind].title : stepTitle(s, words)
}

function stepTitle(s: DrawState, words: ScenarioWords): string {
  return words.steps[stepOf(s).id].title
}

function among(text: string, found: readonly string[], none: string): string | undefined {
  if (found.some((each) => plain(each) === plain(text))) return undefined
  return found.length > 0 ? found.join(' / ') : none
}

function newFlags({ draw, since }: Moment, words: ScenarioWords): readonly string[] {
  return draw
    .log()
    .flatMap(({ seq, event }) =>
      seq >= since && event.type === 'flagRaised' ? [words.flags[event.flag]] : [],
    )
}

function newCues({ draw, since }: Moment, words: ScenarioWords): readonly string[] {
  return draw.log().flatMap(({ seq, event }) => {
    if (seq < since || event.type !== 'cueGiven') return []
    const ref = readCue(event)
    const key = ref && `cue.${ref.kind}.${ref.cue}`
    return key === undefined ? [] : [words.prompts[key] ?? key]
  })
}

function clockTexts({ draw }: Moment, words: ScenarioWords): readonly string[] {
  return clocksOf(draw.state()).map(
    (clock) =>
      `${words.clocks[clock.kind]} ${minutesSeconds(shown_ms(draw.state(), clock, draw.now()))}`,
  )
}

function chartLines({ draw }: Moment, words: ScenarioWords): readonly string[] {
  const entries = draw.log()
  const drawId = draw.state().opened.drawId
  const log: DrawLog = { format: 'stillhand-log', version: 1, drawId, entries }
  return writeNote(log, words.note)
    .text.split('\n')
    .map((line) => line.trim())
}
