import { describe, expect, it } from 'vitest'
import { openAtStep, openTogether } from '../../../src/core/voice/openTogether.ts'

describe('openTogether', () => {
  it('is so for commands of one step, and not for those of steps far apart', () => {
    expect(openTogether('tubeFull', 'bandOff')).toBe(true)
    expect(openTogether('confirmHands', 'spinStarted')).toBe(false)
  })

  it('is so for the safety row and everything but the answers to a question, which have it too', () => {
    expect(openTogether('faint', 'labelsDone')).toBe(true)
    expect(openTogether('confirmYes', 'faint')).toBe(true)
    expect(openTogether('confirmYes', 'confirmNo')).toBe(true)
    expect(openTogether('confirmYes', 'needleIn')).toBe(false)
  })
})

describe('openAtStep', () => {
  it('gives the commands of a step with the safety row, and nothing for a step that is not there', () => {
    expect(openAtStep('consent')).toEqual(
      expect.arrayContaining(['confirmConsent', 'refuseConsent', 'stopEverything']),
    )
    expect(openAtStep('labels')).toEqual(expect.arrayContaining(['labelMatches', 'labelsDone']))
    expect(openAtStep('nowhere')).toBeUndefined()
  })
})
