import { describe, expect, it } from 'vitest'
import { PLAIN_COMMANDS } from '../../../src/core/protocol/commands.ts'
import { carriedOut, questionOf, type Question } from '../../../src/core/protocol/dialog.ts'

const question: Question = { ask: 'endDraw', command: { type: 'endDraw' }, source: 'voice' }

describe('while a question is open', () => {
  it('yes does what was asked, in the way it came in', () => {
    expect(carriedOut(question, { command: { type: 'confirmYes' }, source: 'touch' })).toEqual({
      command: { type: 'endDraw' },
      source: 'voice',
      confirmed: true,
    })
  })

  it.each(['confirmNo', 'goBack'] as const)('%s does nothing at all', (type) => {
    expect(carriedOut(question, { command: { type }, source: 'voice' })).toBeUndefined()
  })

  it('anything else leaves the question undone and is done in its own right', () => {
    const others = PLAIN_COMMANDS.filter(
      (type) => !['confirmYes', 'confirmNo', 'goBack'].includes(type),
    )
    for (const type of others) {
      expect(carriedOut(question, { command: { type }, source: 'keys' })).toEqual({
        command: { type },
        source: 'keys',
        confirmed: false,
      })
    }
  })
})

describe('without a question', () => {
  it('every command is carried out, unconfirmed', () => {
    for (const type of PLAIN_COMMANDS) {
      expect(carriedOut(undefined, { command: { type }, source: 'keys' })?.confirmed).toBe(false)
    }
  })

  it('only a decision that asks opens one', () => {
    const given = { command: { type: 'endDraw' }, source: 'touch' } as const
    expect(questionOf({ kind: 'record', events: [] }, given)).toBeUndefined()
    expect(questionOf({ kind: 'impossible', why: 'closed' }, given)).toBeUndefined()
    expect(questionOf({ kind: 'ask', ask: 'endDraw' }, given)).toEqual({ ...given, ask: 'endDraw' })
  })
})
