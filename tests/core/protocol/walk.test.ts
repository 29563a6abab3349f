import { replay } from '../../../src/core/protocol/evolve.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { PUNCTURE_FIELDS, STATE_FIELDS } from '../../walk/abstractState.ts'
import { COLUMNS } from '../../walk/layout.ts'
import { describe, expect, it } from 'vitest'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { STEP_IDS, type StepId } from '../../../src/core/protocol/steps.ts'
import { bloodTaken, mayTake_mL, overLimit } from '../../../src/core/protocol/bloodTaken.ts'
import { nextTube } from '../../../src/core/protocol/facts.ts'
import {
  CARD_OPENING,
  HEEL_OPENING,
  LIMITED_OPENING,
  SYRINGE_OPENING,
  WALKED_OPENING,
} from '../../walk/walkedOpening.ts'
import { WIDE } from '../../support/wide.ts'
import { deadEnds, walkStates, wayTo } from '../../walk/walkStates.ts'

/** Steps of a finger or heel alone: a vein never comes to them. */
const AT_SKIN: readonly StepId[] = [
  'side',
  'warm',
  'lance',
  'wipe',
  'drops',
  'press',
  'lancetAway',
  'provider',
]
/** Steps of a newborn card alone. */
const AT_CARD: readonly StepId[] = [
  'born',
  'feeding',
  'transfused',
  'card',
  'circle',
  'cardOff',
  'cardDry',
]
/** Steps of a syringe alone: a holder never comes to them. */
const BY_SYRINGE: readonly StepId[] = ['pull', 'transfer', 'vacuum']
const notReached = (steps: ReadonlySet<string>): readonly StepId[] =>
  STEP_IDS.filter((id) => !steps.has(id) && ![...AT_SKIN, ...AT_CARD, ...BY_SYRINGE].includes(id))

describe('every state of a draw from a heel within one departure', () => {
  const walk = walkStates(HEEL_OPENING, 1)
  const steps = new Set([...walk.states.values()].map(({ step }) => step))

  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
    expect(walk.states.size).toBeGreaterThan(1000)
  })

  it('comes to each of its own steps but the second opinion, and to none of a vein', () => {
    const ofVein = ['site', 'vein', 'set', 'band', 'needle', 'flash', 'release', 'lastTube', 'needleOut', 'pressure', 'shield', 'sharps', 'bandage'] // prettier-ignore
    expect(AT_SKIN.filter((id) => !steps.has(id))).toEqual(['provider'])
    expect(ofVein.filter((id) => steps.has(id))).toEqual([])
  })

  it('never has a band or a needle set, nor a clock of them', () => {
    for (const { state } of walk.states.values()) {
      expect(state.bands).toEqual([])
      const kinds = clocksOf(state).map(({ kind }) => kind)
      expect(kinds.filter((kind) => ['band', 'rest', 'flash', 'fill', 'pressure', 'watch'].includes(kind))).toEqual([]) // prettier-ignore
    }
  })
})

describe('every state of a draw from a heel that may go on from a vein', () => {
  const walk = walkStates(HEEL_OPENING, 1, [{ type: 'goToVein', why: 'notEnough' }])
  const states = [...walk.states.values()]

  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
  })

  it('comes to the steps of a vein, and never to a needle with the lanced place open', () => {
    const steps = new Set(states.map(({ step }) => step))
    expect(['set', 'band', 'needle', 'filling'].filter((id) => !steps.has(id))).toEqual([])
    const venous = states.filter(({ state }) => state.collecting === undefined)
    expect(venous.length).toBeGreaterThan(50)
    for (const { state } of venous)
      for (const past of state.past) expect(past.needleIn && !past.bleedingStopped).toBeFalsy()
  })
})

describe('every state of a draw with a newborn card within one departure', () => {
  const walk = walkStates(CARD_OPENING, 1)
  const steps = new Set([...walk.states.values()].map(({ step }) => step))

  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
    expect(walk.states.size).toBeGreaterThan(1000)
  })

  it('comes to each step of the card, and never fills a circle twice', () => {
    expect(AT_CARD.filter((id) => !steps.has(id))).toEqual([])
    const circles = [...walk.states.values()].flatMap(({ state }) =>
      state.tubes.map((tube) => tube.circles?.length ?? 0),
    )
    expect(Math.max(...circles)).toBe(2)
  })
})

describe('every state of a draw by syringe within one departure', () => {
  const walk = walkStates(SYRINGE_OPENING, 1)
  const states = [...walk.states.values()]

  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
    expect(states.length).toBeGreaterThan(1000)
  })

  it('comes to each step of its own, and never fills by the clock of a needle', () => {
    const steps = new Set(states.map(({ step }) => step))
    expect(BY_SYRINGE.filter((id) => !steps.has(id))).toEqual([])
    const kinds = states.flatMap(({ state }) =>
      // Another set may be taken at the first step; then it is no syringe any more.
      state.puncture.pulled ? clocksOf(state).map(({ kind }) => kind) : [],
    )
    expect(kinds).toContain('transfer')
    expect(kinds).not.toContain('fill')
  })
})

describe('every state within one departure from what the screen asks for', () => {
  const walk = walkStates(WALKED_OPENING, 1)

  it('has a way to a recorded end', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
  })

  it('asks for nothing that is then turned down', () => {
    expect(walk.refusedMains).toEqual([])
  })

  // A colleague takes over from whoever was stuck, so that step is come to as well.
  it('is really walked: thousands of states, every step', () => {
    const steps = new Set([...walk.states.values()].map(({ step }) => step))
    expect(walk.states.size).toBeGreaterThan(2000)
    expect(notReached(steps)).toEqual([])
  })
})

describe('every state of a draw at its blood limit, within one departure', () => {
  const walk = walkStates(LIMITED_OPENING, 1)
  const states = [...walk.states.values()].map(({ state }) => state)

  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
  })

  it('is really walked: at the limit, and past it', () => {
    const past = states.filter((s) => bloodTaken(s).most_mL > (mayTake_mL(s) ?? Infinity))
    expect(states.filter((s) => overLimit(s, nextTube(s)?.id)).length).toBeGreaterThan(100)
    expect(past.length).toBeGreaterThan(100)
  })
})

describe.runIf(WIDE)('every state of a draw at its blood limit, within two departures', () => {
  it('has a way to a recorded end, also where somebody decided on more', () => {
    const walk = walkStates(LIMITED_OPENING, 2)
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
    expect([...walk.states.values()].some(({ state }) => state.bloodApproved)).toBe(true)
  }, 900_000)
})

describe.runIf(WIDE)('every state within two departures', () => {
  it('has a way to a recorded end, and asks for nothing that is then turned down', () => {
    const walk = walkStates(WALKED_OPENING, 2)
    expect(deadEnds(walk).map((key) => wayTo(walk, key).join(' '))).toEqual([])
    expect(walk.refusedMains).toEqual([])
    // Two attempts that fail are two departures: only so is the colleague called.
    const steps = new Set([...walk.states.values()].map(({ step }) => step))
    expect(notReached(steps)).toEqual([])
    expect(walk.states.size).toBeGreaterThan(80_000)
  }, 900_000)
})

describe('a dead end', () => {
  it('would be found', () => {
    const walk = walkStates(WALKED_OPENING, 0)
    const states = new Map([...walk.states].map(([key, walked]) => [key, { ...walked, next: [] }]))
    expect(deadEnds({ ...walk, states }).length).toBeGreaterThan(10)
  })
})

describe('the picture of the steps', () => {
  it('has a place for every step, once', () => {
    expect(COLUMNS.flatMap(({ steps }) => [...steps]).sort()).toEqual([...STEP_IDS].sort())
  })
})

describe('the key of a state', () => {
  it('was thought of for every field that a state and its puncture have', () => {
    const state = replay(sampleLog().entries)
    expect(Object.keys(state).filter((field) => !(field in STATE_FIELDS))).toEqual([])
    expect(Object.keys(state.puncture).filter((field) => !(field in PUNCTURE_FIELDS))).toEqual([])
  })
})
