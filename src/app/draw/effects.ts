import { chimeOf } from '../../core/protocol/clockTable.ts'
import { readCue } from '../../core/protocol/cueId.ts'
import { isSevere } from '../../core/protocol/exceptionTable.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import type { Chime } from '../../ports/sound.ts'
import { cuePromptKey, stepPromptKey } from '../view/promptKeys.ts'
import type { Prompts } from '../site/words.ts'
import type { DrawChange } from './drawSession.ts'

/** What is heard after a change: chimes at once, then at most one prompt. */
export interface Effects {
  readonly chimes: readonly Chime[]
  readonly prompt: string | undefined
}

/**
 * Sounds for a change of state. The gravest thing is spoken: an exception before a flag, a flag before a cue,
 * a cue before the next step. Everything spoken is on the screen as well.
 */
export function effectsOf({ before, after, entries }: DrawChange, prompts: Prompts): Effects {
  const chimes: Chime[] = []
  const said: (string | undefined)[] = []
  const has = (key: string): string | undefined => (prompts.prompts[key] ? key : undefined)
  const byPerson = entries.some(({ source }) => source !== 'clock' && source !== 'app')
  if (byPerson) chimes.push('heard')

  for (const { event } of entries) {
    if (event.type === 'exceptionRaised') {
      if (isSevere(event.kind)) chimes.push('severe')
      said.unshift(has(`exception.${event.kind}`))
    }
  }
  for (const { event } of entries) {
    if (event.type === 'flagRaised') said.push(has(`flag.${event.flag}`))
    if (event.type === 'awayNoticed') said.push('app.away')
    if (event.type === 'entryUndone') said.push('app.undone')
    if (event.type === 'cueGiven') {
      const cue = readCue(event)
      const chime = cue && chimeOf(cue.kind, cue.cue)
      if (chime) chimes.push(chime)
      if (cue) said.push(has(cuePromptKey(cue)))
    }
  }
  const step = stepOf(after)
  const moved = stepOf(before).id !== step.id || before.tubeOn !== after.tubeOn
  if (moved) said.push(stepPromptKey(after, step, prompts))
  return { chimes, prompt: said.find((key) => key !== undefined) }
}
