import fc from 'fast-check'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { defined } from '../../../src/core/basics/defined.ts'
import {
  CLOCK_KINDS,
  CLOCK_TABLE,
  type ClockKind,
  type CueName,
} from '../../../src/core/protocol/clockTable.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { decide } from '../../../src/core/protocol/decide.ts'
import { stampAfter } from '../../../src/core/time/stamp.ts'
import { readCue, writeCue, type CueRef, type StoredCue } from '../../../src/core/protocol/cueId.ts'
import {
  twoTubes,
  drawDriver,
  TO_CLEAN,
  TO_HANDS,
  toNeedleIn,
  toTubesDone,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { CARD_OPENING, SYRINGE_OPENING } from '../../walk/walkedOpening.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'

const cuesOf = (kind: keyof typeof CLOCK_TABLE): CueName[] =>
  Object.keys(CLOCK_TABLE[kind]) as CueName[]
const calling = CLOCK_KINDS.filter((kind) => cuesOf(kind).length > 0)

const repeat = fc.oneof(
  fc.nat(),
  fc.record({ boot: fc.string({ unit: 'binary' }), beat: fc.nat() }, { noNullPrototype: true }),
)
const cueRef: fc.Arbitrary<CueRef> = fc.constantFrom(...calling).chain((kind) =>
  fc.record(
    {
      kind: fc.constant(kind),
      // A tube's id may be anything that a plan was read with.
      ordinal: fc.oneof(
        fc.string({ unit: 'binary' }),
        fc.constantFrom('1', 't1', 'a#b', '7@8', '@', ''),
      ),
      from_ms: fc.oneof(
        fc.integer({ min: -8.64e15, max: 8.64e15 }),
        fc.integer({ min: 1, max: 1e13 }).map((ms) => ms + 0.125),
      ),
      cue: fc.constantFrom(...cuesOf(kind)),
      repeat,
    },
    { requiredKeys: ['kind', 'from_ms', 'cue'], noNullPrototype: true },
  ),
)

describe('the name of a cue in the log', () => {
  it.each<[StoredCue, CueRef]>([
    [
      { clock: 'band#2@1764057600000', cue: 'first' },
      { kind: 'band', ordinal: '2', from_ms: 1_764_057_600_000, cue: 'first' },
    ],
    [
      { clock: 'band#1@1764057600000', cue: 'up+3' },
      { kind: 'band', ordinal: '1', from_ms: 1_764_057_600_000, cue: 'up', repeat: 3 },
    ],
    [
      { clock: 'band#1@1764057600000', cue: 'up+boot-2.17' },
      {
        kind: 'band',
        ordinal: '1',
        from_ms: 1_764_057_600_000,
        cue: 'up',
        repeat: { boot: 'boot-2', beat: 17 },
      },
    ],
    [
      { clock: 'fill#t1@1764057600000', cue: 'late' },
      { kind: 'fill', ordinal: 't1', from_ms: 1_764_057_600_000, cue: 'late' },
    ],
    [
      { clock: 'faint#1764057600000', cue: 'up' },
      { kind: 'faint', from_ms: 1_764_057_600_000, cue: 'up' },
    ],
  ])('is written as it always was: %j', (stored, ref) => {
    expect(writeCue(ref)).toEqual(stored)
    expect(readCue(stored)).toEqual(ref)
  })

  it('reads back as what was written', () => {
    fc.assert(
      fc.property(cueRef, (ref) => {
        expect(readCue(writeCue(ref))).toEqual(ref)
      }),
      { numRuns: 1000 },
    )
  })

  it('is another one for another cue', () => {
    fc.assert(
      fc.property(cueRef, cueRef, (a, b) => {
        const same = JSON.stringify(writeCue(a)) === JSON.stringify(writeCue(b))
        if (same) expect(a).toEqual(b)
      }),
    )
  })

  it.each([
    { clock: 'bandage#1@1764057600000', cue: 'up' },
    { clock: 'band', cue: 'up' },
    { clock: 'band#1@noon', cue: 'up' },
    { clock: 'band#1@1764057600000', cue: 'upward' },
    { clock: 'band#1@1764057600000', cue: 'late' },
    { clock: 'band#1@1764057600000', cue: 'up+x' },
    { clock: 'exposure#1764057600000', cue: 'up' },
    { clock: '', cue: '' },
  ])('of no clock there is belongs to none: %j', (stored) => {
    expect(readCue(stored)).toBeUndefined()
  })

  it('is read in every log there is', () => {
    const entries = [
      ...scenarioFiles().flatMap(({ text }) => {
        const reading = readScript(text)
        return reading.ok ? playScenario(reading.value).log.entries : []
      }),
      ...['version0', 'version1'].flatMap((name) => {
        const file = `tests/fixtures/logs/${name}.json`
        const { log } = JSON.parse(readFileSync(file, 'utf8')) as {
          log: { entries: { event: { type: string } & StoredCue }[] }
        }
        return log.entries
      }),
    ]
    const cues = entries.flatMap(({ event }) => (event.type === 'cueGiven' ? [event] : []))
    expect(cues.length).toBeGreaterThan(100)
    expect(cues.filter((cue) => readCue(cue as StoredCue) === undefined)).toEqual([])
  }, 60_000)
})

describe('a cue that opens an exception', () => {
  /** At a heel, where a pack may warm. */
  const warmed = (draw: DrawDriver): void => draw.does(...TO_HANDS, 'chooseSide:left', 'warmOn')
  /** At a cot, with a card that was laid flat. */
  const dried = (draw: DrawDriver): void =>
    draw.does(...TO_HANDS, 'lanced', 'circleGood', 'circleGood', 'cardDone', 'laidFlat')
  /** By syringe, which is full. */
  const filled = (draw: DrawDriver): void => {
    toNeedleIn(draw)
    draw.does('bandOff', 'syringeFull')
  }
  const moments: readonly ((draw: DrawDriver) => void)[] = [
    warmed,
    dried,
    filled,
    (draw) => draw.does(...TO_CLEAN),
    (draw) => {
      draw.does(...TO_CLEAN, 'bandOn')
      draw.advance(60_000)
      draw.does('bandOff')
    },
    toNeedleIn,
    (draw) => {
      toNeedleIn(draw)
      draw.does('tubeOn')
    },
    (draw) => {
      toNeedleIn(draw)
      draw.does('tubeOn', 'tubeFull')
    },
    (draw) => {
      toTubesDone(draw)
      draw.does('lastTube', 'pressureOn', 'faint')
    },
    (draw) => {
      toTubesDone(draw)
      draw.does('lastTube', 'pressureOn', 'bleedingStopped')
    },
  ]

  it('is the end of the band and the late tube, and none of any other clock', () => {
    const seen = new Set<ClockKind>()
    const opening = new Set<string>()
    for (const to of moments) {
      const timed = twoTubes.tubes.map((tube) => ({ ...tube, timeLimit_min: 15 }))
      const plan = { ...twoTubes, tubes: timed }
      const atSkin = { plan, collecting: 'capillaryHeel' } as const
      const special = new Map<unknown, Partial<DrawOpened>>([
        [dried, CARD_OPENING],
        [warmed, atSkin],
        [filled, SYRINGE_OPENING],
      ])
      const draw = drawDriver(special.get(to) ?? { plan })
      to(draw)
      const s = draw.state()
      for (const { kind, ordinal, from_ms } of clocksOf(s)) {
        seen.add(kind)
        for (const cue of cuesOf(kind)) {
          const ref: CueRef = defined({ kind, ordinal, from_ms, cue, repeat: 2 })
          const now = stampAfter(s.last.at, draw.now())
          const decision = decide(s, { type: 'giveCue', cue: ref, late_ms: 0 }, now)
          if (decision.kind !== 'record') throw new Error(`${kind} ${cue} is not recorded`)
          const raises = decision.events.some(({ type }) => type === 'exceptionRaised')
          if (raises) opening.add(`${kind} ${cue}`)
        }
      }
    }
    expect([...seen].sort()).toEqual([...calling].sort())
    expect([...opening].sort()).toEqual(['band up', 'fill late'])
  })
})
