import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { FLAGS } from '../../src/core/protocol/events.ts'
import { decide } from '../../src/core/protocol/decide.ts'
import { replay } from '../../src/core/protocol/evolve.ts'
import * as drawFacts from '../../src/core/protocol/facts.ts'
import { commandOf } from '../../src/core/protocol/openCommands.ts'
import { mainOf, STEP_IDS, stepOf } from '../../src/core/protocol/steps.ts'
import { factsOf } from '../../src/core/record/factsOf.ts'
import { stampAfter } from '../../src/core/time/stamp.ts'
import { nextByTheScreen, type DrawDriver } from '../support/drawDriver.ts'
import { BENCH_FLAGS } from '../support/benchFlags.ts'
import { WIDE } from '../support/wide.ts'
import { make, moves, played, start, type Move } from '../support/protocolMoves.ts'

const RUNS = Number(process.env.PROTOCOL_RUNS ?? (WIDE ? 60 : 25))

type Property = (draw: DrawDriver, made: Move | undefined) => void

function holds(name: string, property: Property): void {
  play(name, property, property)
}

/** For what is slow to look at, or would itself change the draw. */
function holdsAtTheEnd(name: string, property: Property): void {
  play(name, () => undefined, property)
}

function play(name: string, each: Property, end: Property): void {
  const plays = fc.property(played, moves, (whose, list) => {
    const draw = start(whose)
    for (const next of list) {
      make(draw, next)
      each(draw, next)
    }
    end(draw, undefined)
  })
  it(name, () => fc.assert(plays, { numRuns: RUNS }), 3_600_000)
}

/** The draw could be closed at this very moment, by someone who is sure. */
function couldEnd(draw: DrawDriver): boolean {
  const at = stampAfter(draw.state().last.at, draw.now())
  return (['endDraw', 'specimensRacked'] as const).some((type) => {
    const decision = decide(draw.state(), { type }, at, true)
    return (
      decision.kind === 'record' && decision.events.some((event) => event.type === 'drawClosed')
    )
  })
}

describe('whatever is said, whenever, through crashes and changed clocks', () => {
  holds(
    'a draw never ends with the band on, a tube on, the needle in or loose, or the place bleeding',
    (draw) => {
      if (!couldEnd(draw)) return
      const s = draw.state()
      const open = {
        band: drawFacts.bandIsOn(s),
        tube: drawFacts.tubeIsOn(s),
        needle: drawFacts.needleIsIn(s),
        sharp: drawFacts.sharpIsLoose(s),
        wound: drawFacts.woundIsOpen(s),
      }
      expect(Object.entries(open).filter(([, still]) => still)).toEqual([])
    },
  )

  holds(
    'a needle that comes out with the band or a tube on is flagged in the same moment',
    (draw) => {
      const log = draw.log()
      const out = log.findLast(({ event }) => event.type === 'needleOut')
      if (!out) return
      const before = replay(log.slice(0, out.seq - 1))
      const flags = log.filter(({ at, event }) => at === out.at || (at.mono_ms === out.at.mono_ms && event.type === 'flagRaised'))
      .flatMap(({ event }) => (event.type === 'flagRaised' ? [event.flag] : [])) // prettier-ignore
      if (drawFacts.bandIsOn(before)) expect(flags).toContain('needleOutBandOn')
      if (drawFacts.tubeIsOn(before)) expect(flags).toContain('needleOutTubeOn')
    },
  )

  holds(
    'no draw with a needle in it ends before the identity was confirmed or found not to match',
    (draw) => {
      const s = draw.state()
      if (couldEnd(draw) && drawFacts.attemptsInAll(s) > 0)
        expect(drawFacts.identityAnswered(s)).toBe(true)
    },
  )

  holds('charted time never runs backwards', (draw) => {
    const times = draw.log().map(({ at }) => at.at_ms)
    expect(times).toEqual([...times].sort((a, b) => a - b))
  })

  holdsAtTheEnd('the log alone gives the same state as before the crash', (draw) => {
    const read = JSON.parse(JSON.stringify(draw.log())) as LogEntry[]
    expect(replay(read)).toEqual(draw.state())
  })

  holds('a third needle by one person is flagged', (draw) => {
    const log = draw.log()
    const last = log.at(-1)
    const needle = log.findLast(({ event }) => event.type === 'needleIn')
    if (!needle || !last || needle.at.mono_ms !== last.at.mono_ms) return
    const s = replay(log.slice(0, needle.seq))
    const by = s.collector.id
    const flagged = log
      .slice(needle.seq)
      .some(({ event }) => event.type === 'flagRaised' && event.flag === 'thirdAttempt')
    const limit = s.opened.policy.limits.attemptsPerPerson_n.value
    expect(flagged).toBe(drawFacts.attemptsBy(s, by) > limit)
  })

  holds('what the screen asks for can be done', (draw) => {
    const main = mainOf(draw.state())
    const asked = nextByTheScreen(draw.state())
    if (main) expect(draw.open().main).toBe(main)
    if (asked.length === 0) {
      expect(stepOf(draw.state()).id).toBe('finished')
      return
    }
    const at = stampAfter(draw.state().last.at, draw.now())
    const refused = asked
      .map((each) => (typeof each === 'string' ? commandOf(each) : each))
      .map((each) => ({ step: draw.step(), each, decision: decide(draw.state(), each, at, true) }))
      .filter(({ decision }) => decision.kind !== 'record')
    expect(refused).toEqual([])
  })

  holds(
    'nothing said is lost: it is recorded, asked back, or turned down with a reason',
    (draw, made) => {
      if (made?.kind !== 'command') return
      const before = draw.log().length
      const decision = draw.dispatch(made.command, 'voice', undefined, true)
      if (decision.kind === 'record')
        expect(draw.log().length).toBe(before + decision.events.length)
      else expect(draw.log().length).toBe(before)
      if (decision.kind === 'impossible') expect(decision.why).toBeTruthy()
      expect(decision.kind).not.toBe('ask')
    },
  )

  holdsAtTheEnd('what is taken back no longer counts and stays in the record', (draw) => {
    const before = draw.log().length
    const decision = draw.dispatch({ type: 'goBack' }, 'touch')
    if (decision.kind !== 'record') return
    const undone = decision.events.flatMap((event) =>
      event.type === 'entryUndone' ? [event.seq] : [],
    )
    expect(undone.length).toBeGreaterThan(0)
    const seqs = new Set(undone)
    expect(draw.state().kept.some(({ seq }) => seqs.has(seq))).toBe(false)
    expect(
      draw
        .log()
        .slice(0, before)
        .filter(({ seq }) => seqs.has(seq)).length,
    ).toBe(seqs.size)
  })

  holdsAtTheEnd(
    'the record reads the same needles, bands and tubes out of the log as the protocol does',
    (draw) => {
      const log = {
        format: 'stillhand-log' as const,
        version: 1 as const,
        drawId: 'D',
        entries: draw.log(),
      }
      const facts = factsOf(log)
      const s = draw.state()
      expect(facts.punctures.flatMap(({ needleIn }) => needleIn).length).toBe(
        drawFacts.attemptsInAll(s),
      )
      expect(facts.punctures.flatMap(({ bands }) => bands).length).toBe(s.bands.length)
      const full = facts.tubes
        .filter(({ fill }) => fill === 'full' || fill === 'short')
        .map(({ tube }) => tube.id)
      expect(full.sort()).toEqual(
        drawFacts
          .specimens(s)
          .map(({ id }) => id)
          .sort(),
      )
    },
  )
})

describe('the sequences above', () => {
  it('come to every step, outcome and flag, so that the rules are really tried', () => {
    const steps = new Set<string>()
    const flags = new Set<string>()
    const outcomes = new Set<string>()
    for (const [i, list] of fc.sample(moves, { numRuns: 800, seed: 7 }).entries()) {
      const draw = start({ thin: 'none', heel: i % 4 === 3, card: i % 16 === 15 })
      // Half of them leave the straight way only after a while, so that the late steps and ends are come to as well.
      const straight = i % 2 === 0 ? 0 : i % 45
      const first = Array.from(
        { length: straight },
        () => ({ kind: 'asked', wait_ms: 3000 }) as const,
      )
      for (const next of [...first, ...list]) {
        make(draw, next)
        steps.add(draw.step())
      }
      draw.flags().forEach((flag) => flags.add(flag))
      outcomes.add(draw.state().closed?.outcome ?? 'open')
    }
    expect(STEP_IDS.filter((step) => !steps.has(step))).toEqual([])
    expect([...outcomes].sort()).toEqual(['complete', 'notDrawn', 'open', 'partial', 'stopped'])
    // What is flagged on the bench comes of acts with tubes of other kinds: tests/core/protocol/decideBench.test.ts.
    const here = FLAGS.filter((flag) => !BENCH_FLAGS.includes(flag))
    expect(here.filter((flag) => !flags.has(flag))).toEqual([])
  }, 600_000)
})

describe('a way out of everything', () => {
  it('whoever follows the screen from any moment reaches a recorded end', () => {
    let longest = 0
    fc.assert(
      fc.property(played, moves, (whose, list) => {
        const draw = start(whose)
        for (const next of list) make(draw, next)
        let count = 0
        while (!draw.state().closed) {
          draw.advance(1000)
          const asked = nextByTheScreen(draw.state())[0]
          const step = draw.step()
          if (!asked) throw new Error(`nothing to do at ${step}`)
          const decision = draw.tries(asked)
          expect(
            decision.kind,
            `${JSON.stringify(asked)} at ${step}: ${JSON.stringify(decision)}`,
          ).toBe('record')
          count += 1
          expect(count, `still at ${draw.step()}`).toBeLessThan(80)
        }
        longest = Math.max(longest, count)
      }),
      { numRuns: RUNS },
    )
    expect(longest).toBeGreaterThan(0)
  }, 600_000)
})
