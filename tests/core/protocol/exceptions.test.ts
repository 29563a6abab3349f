import { describe, expect, it } from 'vitest'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import { EXCEPTION_TABLE } from '../../../src/core/protocol/exceptionTable.ts'
import { FLAGS } from '../../../src/core/protocol/events.ts'
import { ASKS } from '../../../src/core/protocol/asks.ts'
import { IMPOSSIBLE } from '../../../src/core/protocol/impossible.ts'
import { STEP_IDS } from '../../../src/core/protocol/steps.ts'
import { CLOCK_KINDS, CLOCK_TABLE, type CueRow } from '../../../src/core/protocol/clockTable.ts'
import * as drawFacts from '../../../src/core/protocol/facts.ts'
import { SILENT_EXCEPTIONS, SILENT_FLAGS } from '../../../src/app/site/words.ts'
import words from '../../../src/data/en/words.json' with { type: 'json' }
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { drawDriver, toBandage, TO_HANDS, toNeedleIn } from '../../support/drawDriver.ts'
import { secondCollector } from '../../support/sampleLog.ts'

const SILENT: readonly string[] = [...SILENT_FLAGS, ...SILENT_EXCEPTIONS]

describe('everything the protocol can say has its words', () => {
  it.each(EXCEPTION_KINDS)('%s: title, instruction, prompt', (kind) => {
    expect(words.exceptions[kind].title.length).toBeGreaterThan(3)
    expect(words.exceptions[kind].instruction.length).toBeGreaterThan(5)
    const spoken: Record<string, string> = prompts.prompts
    // Remarks for the record are shown and charted, not spoken: no hand can do anything about them.
    expect(Boolean(spoken[`exception.${kind}`])).toBe(!SILENT.includes(kind))
  })

  it('steps, flags, questions, reasons and clocks', () => {
    const spoken: Record<string, string> = prompts.prompts
    expect(Object.keys(words.steps).sort()).toEqual([...STEP_IDS].sort())
    expect(Object.keys(words.flags).sort()).toEqual([...FLAGS].sort())
    expect(Object.keys(words.asks).sort()).toEqual([...ASKS].sort())
    expect(Object.keys(words.impossible).sort()).toEqual([...IMPOSSIBLE].sort())
    expect(Object.keys(words.clocks).sort()).toEqual([...CLOCK_KINDS].sort())
    expect(STEP_IDS.filter((id) => !spoken[`step.${id}`])).toEqual([])
    expect(FLAGS.filter((id) => !spoken[`flag.${id}`])).toEqual(
      FLAGS.filter((id) => SILENT.includes(id)),
    )
    expect(ASKS.filter((id) => !spoken[`ask.${id}`])).toEqual([])
    const cues = CLOCK_KINDS.flatMap((kind) =>
      Object.entries<CueRow>(CLOCK_TABLE[kind]).map(([cue, row]) => ({ kind, cue, row })),
    )
    const unspoken = cues.filter(({ kind, cue }) => !spoken[`cue.${kind}.${cue}`])
    expect(unspoken.filter(({ row }) => !row.wordless)).toEqual([])
    expect(unspoken.length).toBe(cues.filter(({ row }) => row.wordless).length)
  })
})

describe('severe exceptions', () => {
  const severe = EXCEPTION_KINDS.filter(
    (kind) => EXCEPTION_TABLE[kind].severity === 'severe' && kind !== 'bandOver',
  )

  it.each(severe)(
    '%s with the needle, band and tube in place: everything off and out, in that order',
    (kind) => {
      const draw = drawDriver()
      toNeedleIn(draw)
      draw.does('flashSeen', 'tubeOn')
      draw.advance(1000)
      expect(draw.tries({ type: 'raise', kind }).kind).toBe('record')
      const steps = [draw.step()]
      expect(draw.tries('exceptionHandled')).toEqual({ kind: 'impossible', why: 'notSafeYet' })
      for (const key of ['bandOff', 'tubeShort', 'pressureOn'] as const) {
        draw.does(key)
        steps.push(draw.step())
      }
      expect(steps).toEqual(['release', 'takeOff', 'needleOut', 'shield'])
      expect(drawFacts.bodyIsSafe(draw.state())).toBe(true)
      expect(draw.flags()).toEqual([])
    },
  )

  it.each(severe)(
    '%s: after it is dealt with, the draw ends or goes on at another place',
    (kind) => {
      const draw = drawDriver()
      draw.does(...TO_HANDS)
      draw.tries({ type: 'raise', kind })
      draw.does('exceptionHandled')
      // Whoever was stuck puts in no further needle: somebody else goes on.
      const on = kind === 'needlestick' ? 'colleague' : 'again'
      expect(draw.step()).toBe(EXCEPTION_TABLE[kind].endsDraw ? 'end' : on)
    },
  )

  it('none may be followed by another needle before it is dealt with', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'faint')
    expect(draw.tries('tryAgain')).toEqual({ kind: 'impossible', why: 'severeOpen' })
  })

  it('dealt with ends what is on the screen first', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'faint', 'nausea', 'exceptionHandled')
    expect(drawFacts.openKinds(draw.state())).toEqual(['nausea'])
  })
})

describe('tubes that are lost', () => {
  it('a dropped tube waits again, and its label is not that of its successor', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.does('labelMatches', 'labelMatches', 'labelsDone')
    draw.tries({ type: 'raise', kind: 'droppedTube', tubeId: 't1' })
    expect(drawFacts.waitingTubes(draw.state()).map(({ id }) => id)).toEqual(['t1'])
    expect(draw.state().readBack).toEqual({ t2: true })
    expect(draw.step()).toBe('again')
    draw.does('tryAgain', 'chooseArm:right', 'chooseVein:hand', 'skinClean')
    draw.advance(30_000)
    draw.does(
      'skinDry',
      'bandOn',
      'needleIn',
      'tubeOn',
      'bandOff',
      'tubeFull',
      'tubeMixed',
      'lastTube',
      'pressureOn',
      'shieldClicked',
      'sharpsDone',
    )
    draw.advance(300_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn')
    expect(draw.step()).toBe('labels')
    expect(drawFacts.unread(draw.state()).map(({ id }) => id)).toEqual(['t1'])
  })

  it('the tube that came off last is the one that fell, whatever its place in the rack', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('flashSeen')
    draw.advance(1000)
    draw.tries({ type: 'tubeOnNamed', tubeId: 't2' })
    draw.does('tubeFull', 'tubeOn', 'tubeFull', 'droppedTube')
    expect(drawFacts.waitingTubes(draw.state()).map(({ id }) => id)).toEqual(['t1'])
  })

  it('after the end a tube can fall, but none can be found wrong', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
    const raise = (kind: 'wrongTube' | 'droppedTube') =>
      draw.tries({ type: 'raise', kind, tubeId: 't1' })
    expect(raise('wrongTube')).toEqual({ kind: 'impossible', why: 'closed' })
    expect(raise('droppedTube').kind).toBe('record')
  })

  it('a tube without any blood gets no label and is still wanted', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('tubeOn')
    draw.tries({ type: 'tubeShortBy', estimate_mL: 0 })
    expect(drawFacts.anyBlood(draw.state())).toBe(false)
    expect(drawFacts.nextTube(draw.state())?.id).toBe('t1')
    expect(draw.step()).not.toBe('mix')
  })
})

describe('ends of exceptions', () => {
  it('pressing takes the needle out, and so ends what the needle coming out ends', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('noFlash', 'bandOff', 'pressureOn')
    expect(drawFacts.openKinds(draw.state())).toEqual([])
  })

  it('only a named decision ends not being prepared', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent')
    draw.tries({ type: 'notPrepared', what: 'ate breakfast' })
    expect(draw.step()).toBe('decision')
    expect(draw.tries('exceptionHandled')).toEqual({ kind: 'impossible', why: 'notDecided' })
    expect(draw.tries('confirmPreparation')).toEqual({ kind: 'impossible', why: 'notDecided' })
    draw.tries({ type: 'nameDecision', decision: 'proceed', by: 'Dr. Pat Placeholder' })
    expect([draw.step(), drawFacts.openKinds(draw.state())]).toEqual(['supplies', []])
  })

  it('bleeding, faintness, a needlestick and a fallen tube can still be recorded after the end', () => {
    for (const key of [
      'bleedingContinues',
      'faint',
      'needlestick',
      'droppedTube',
      'unlabelledTube',
    ] as const) {
      const draw = drawDriver()
      toBandage(draw)
      draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
      expect(draw.tries(key).kind).toBe('record')
      for (let i = 0; i < 4 && drawFacts.exceptionIsOpen(draw.state(), key); i++) {
        draw.advance(400_000)
        if (key === 'unlabelledTube') {
          draw.tries({ type: 'settleUnlabelled', tubeId: 't1', how: 'sentAsIs', by: 'RE' })
          continue
        }
        draw.does(
          draw.open().main === 'courierTook' || draw.open().main === 'spinStarted'
            ? 'exceptionHandled'
            : (draw.open().main ?? 'exceptionHandled'),
        )
      }
      expect(drawFacts.exceptionIsOpen(draw.state(), key)).toBe(false)
    }
  })

  it('a handover before the needle asks for identity and hands again; with the needle in it does not', () => {
    const before = drawDriver()
    before.does(...TO_HANDS)
    before.tries({ type: 'handOver', to: secondCollector })
    expect(before.step()).toBe('identity')
    before.does('confirmPatient')
    expect(before.step()).toBe('hands')
    const during = drawDriver()
    toNeedleIn(during)
    during.tries({ type: 'handOver', to: secondCollector })
    expect(during.step()).toBe('flash')
    expect(drawFacts.identityChecked(during.state())).toBe(true)
  })

  it('blood of somebody else is neither labeled nor racked', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.tries('refuseIdentity')
    draw.does('exceptionHandled')
    expect(draw.step()).toBe('aftercare')
    draw.does('aftercareTold')
    expect(draw.step()).toBe('end')
    expect(draw.tries('specimensRacked')).toEqual({ kind: 'impossible', why: 'noSpecimens' })
    draw.does('endDraw')
    expect(draw.state().closed?.outcome).toBe('stopped')
  })
})
