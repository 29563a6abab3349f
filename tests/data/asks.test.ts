import { describe, expect, it } from 'vitest'
import { ASKS } from '../../src/core/protocol/asks.ts'
import prompts from '../../src/data/en/prompts.json' with { type: 'json' }
import words from '../../src/data/en/words.json' with { type: 'json' }

/** A verb that asks, or the act itself: what a fact ("Tubes are left.") does not begin with. */
const BEGINS_LIKE_A_QUESTION =
  /^(is|are|was|has|have|does|do|end|stop|use|another|same|keep|go|draw|set|press|throw|send)\b/i

describe('what is asked aloud and takes yes or no', () => {
  const asked = Object.entries(prompts.prompts).filter(([key]) => key.startsWith('ask.'))

  it('has a prompt for every question there is, and none besides', () => {
    expect(asked.map(([key]) => key).sort()).toEqual(ASKS.map((ask) => `ask.${ask}`).sort())
  })

  it.each(asked)('%s is one question and then "Yes or no?", never a fact', (_key, text) => {
    const [question = '', answers, ...more] = text.split(/(?<=[.?!])\s+/)
    expect(question).toMatch(/\?$/)
    expect(question).toMatch(BEGINS_LIKE_A_QUESTION)
    expect(answers).toBe('Yes or no?')
    expect(more).toEqual([])
  })

  it.each(Object.entries(words.asks))(
    '%s is a question on the screen as well, and one only',
    (_ask, text) => {
      expect(text.match(/\?/g)).toHaveLength(1)
    },
  )
})
