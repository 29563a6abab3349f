import { chimeOf } from '../../core/protocol/clockTable.ts'
import { readCue } from '../../core/protocol/cueId.ts'
import type { Flag } from '../../core/protocol/events.ts'
import { endsPuncture, isSevere } from '../../core/protocol/exceptionTable.ts'
import { bandIsOn, planned } from '../../core/protocol/facts.ts'
import { isSpecimen } from '../../core/protocol/sharedPredicates.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import type { Chime } from '../../ports/sound.ts'
import { cuePromptKey, handlePromptKey, offPromptKey, stepPromptKey } from '../view/promptKeys.ts'
import type { Prompts } from '../site/words.ts'
import type { DrawChange } from './drawSession.ts'

/** What is heard after a change: chimes at once, then the words of one thing. */
export interface Effects {
  readonly chimes: readonly Chime[]
  /** Keys of prompts, spoken one after the other. */
  readonly prompts: readonly string[]
}

/**
 * Sounds for a change of state. The gravest thing is spoken: an exception before a flag, a flag before a cue,
 * a cue before the next step. Everything spoken is on the screen as well.
 */
export function effectsOf({ before, after, entries }: DrawChange, prompts: Prompts): Effects {
  const chimes: Chime[] = []
  const said: (readonly string[])[] = []
  const has = (key: string): readonly string[] => (prompts.prompts[key] ? [key] : [])
  const byPerson = entries.some(({ source }) => source !== 'clock' && source !== 'app')
  if (byPerson) chimes.push('heard')

  for (const { event } of entries) {
    if (event.type === 'exceptionRaised') {
      if (isSevere(event.kind)) chimes.push('severe')
      const off = endsPuncture(event.kind) ? offPromptKey(after) : undefined
      const band = event.kind === 'interrupted' && bandIsOn(after) ? ['app.bandIsOn'] : []
      said.unshift([...(off ? [off] : []), ...has(`exception.${event.kind}`), ...band])
    }
  }
  for (const { event } of entries) {
    if (event.type === 'flagRaised') said.push(flagPrompts(event.flag, after, has))
    if (event.type === 'awayNoticed') said.push(['app.away'])
    if (event.type === 'entryUndone') said.push(['app.undone'])
    if (event.type === 'cueGiven') {
      const cue = readCue(event)
      const chime = cue && chimeOf(cue.kind, cue.cue)
      if (chime) chimes.push(chime)
      if (cue) said.push(has(cuePromptKey(cue)))
    }
  }
  const step = stepOf(after)
  const moved = stepOf(before).id !== step.id || before.tubeOn !== after.tubeOn
  const handling = handlingPrompt(after, entries)
  const next = moved ? [stepPromptKey(after, step, prompts)] : []
  // Mixed first, for that takes ten seconds; then ice; only then the next thing.
  said.push(step.id === 'mix' ? [...next, ...handling] : [...handling, ...next])
  return { chimes, prompts: said.find((keys) => keys.length > 0) ?? [] }
}

/** A needle after the draw was stopped: first everything off and out. */
function flagPrompts(
  flag: Flag,
  after: DrawState,
  has: (key: string) => readonly string[],
): readonly string[] {
  const off = flag === 'afterStop' ? offPromptKey(after) : undefined
  return [...(off ? [off] : []), ...has(`flag.${flag}`)]
}

/** What is to be done at once with the tube that just came off. */
function handlingPrompt(after: DrawState, entries: DrawChange['entries']): readonly string[] {
  return entries.flatMap(({ event }) => {
    const tube = event.type === 'tubeOff' && after.tubes.find(({ id }) => id === event.tubeId)
    const key = tube && isSpecimen(planned(after, tube.id), tube) && handlePromptKey(after, tube)
    return key ? [key] : []
  })
}
