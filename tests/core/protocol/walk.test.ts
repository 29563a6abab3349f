import { describe, expect, it } from 'vitest'
import { STEP_IDS } from '../../../src/core/protocol/steps.ts'
import { WALKED_OPENING } from '../../walk/walkedOpening.ts'
import { deadEnds, walkStates, wayTo } from '../../walk/walkStates.ts'

describe('every state within one departure from what the screen asks for', () => {
  const walk = walkStates(WALKED_OPENING, 1)

  it('has a way to a recorded end', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
  })

  it('asks for nothing that is then turned down', () => {
    expect(walk.refusedMains).toEqual([])
  })

  it('is really walked: thousands of states, every step but the colleague after two attempts', () => {
    const steps = new Set([...walk.states.values()].map(({ step }) => step))
    expect(walk.states.size).toBeGreaterThan(2000)
    expect(STEP_IDS.filter((id) => !steps.has(id))).toEqual(['colleague'])
  })
})

describe('a dead end', () => {
  it('would be found', () => {
    const walk = walkStates(WALKED_OPENING, 0)
    const states = new Map([...walk.states].map(([key, walked]) => [key, { ...walked, next: [] }]))
    expect(deadEnds({ ...walk, states }).length).toBeGreaterThan(10)
  })
})
