import { describe, expect, it } from 'vitest'
import type { Command, CommandKey } from '../../../src/core/protocol/commands.ts'
import type { DrawEvent, Flag } from '../../../src/core/protocol/events.ts'
import { pressureNeeded_s } from '../../../src/core/protocol/facts.ts'
import type { Impossible } from '../../../src/core/protocol/impossible.ts'
import {
  drawDriver,
  toBandage,
  TO_CLEAN,
  TO_HANDS,
  toNeedleIn,
  toTubesDone,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import { secondCollector } from '../../support/sampleLog.ts'

/** From a named place in the draw, one command and what must come of it. */
type Place = (draw: DrawDriver) => void
const start: Place = () => undefined
const site: Place = (draw) => draw.does(...TO_HANDS)
const dry: Place = (draw) => {
  draw.does(...TO_CLEAN)
  draw.advance(30_000)
  draw.does('skinDry')
}
const banded: Place = (draw) => {
  dry(draw)
  draw.does('bandOn')
}
const inVein: Place = toNeedleIn
const filling: Place = (draw) => {
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff')
}
const out: Place = (draw) => {
  toTubesDone(draw)
  draw.does('lastTube', 'pressureOn')
}
const labels: Place = toBandage
const closed: Place = (draw) => {
  toBandage(draw)
  draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
}

const identityPassedOver: Place = (draw) => {
  draw.does('needleIn', 'pressureOn', 'shieldClicked', 'sharpsDone', 'bleedingStopped', 'bandageOn')
}

const TURNED_DOWN: readonly (readonly [string, Place, CommandKey, Impossible])[] = [
  ['identity twice', site, 'confirmPatient', 'alreadyDone'],
  ['consent twice', site, 'confirmConsent', 'alreadyDone'],
  ['a vein before an arm', site, 'chooseVein:hand', 'notDecided'],
  ['the band on twice', banded, 'bandOn', 'bandIsOn'],
  ['the band off while it is off', dry, 'bandOff', 'bandIsOff'],
  ['the other arm while the band is on this one', banded, 'chooseArm:right', 'bandOnOtherArm'],
  ['another arm with the needle in this one', inVein, 'chooseArm:right', 'needleIsIn'],
  ['dry before it was clean', site, 'skinDry', 'notCleaned'],
  ['cleaning under the needle', inVein, 'skinClean', 'needleIsIn'],
  ['a second needle while one is in', inVein, 'needleIn', 'needleIsIn'],
  ['a flash without a needle', banded, 'flashSeen', 'needleNotIn'],
  ['a tube without a needle', banded, 'tubeOn', 'needleNotIn'],
  ['a second tube on the holder', filling, 'tubeOn', 'tubeIsOn'],
  ['a full tube when none is on', inVein, 'tubeFull', 'noTubeOn'],
  ['mixing when nothing is to mix', filling, 'tubeMixed', 'nothingToMix'],
  ['the last tube while it is on', filling, 'lastTube', 'tubeIsOn'],
  ['a tube when none is left', toTubesDone, 'tubeOn', 'noTubeLeft'],
  ['needle out when it is not in', banded, 'needleOut', 'needleNotIn'],
  ['the shield before any needle', banded, 'shieldClicked', 'needleNotOut'],
  ['bleeding stopped with the needle in', inVein, 'bleedingStopped', 'needleNotOut'],
  ['a new try with the needle in', inVein, 'tryAgain', 'notSafeYet'],
  ['a new try when everything is drawn', labels, 'tryAgain', 'noTubeLeft'],
  ['a label before there is blood', banded, 'labelMatches', 'noSpecimens'],
  ['the rack before the labels', labels, 'specimensRacked', 'specimensOpen'],
  ['the end with the needle in', inVein, 'endDraw', 'notSafeYet'],
  ['the end with the band on', banded, 'endDraw', 'notSafeYet'],
  ['the end while it bleeds', out, 'endDraw', 'stillBleeding'],
  ['the end without labels', labels, 'endDraw', 'specimensOpen'],
  ['the courier before the end', labels, 'courierTook', 'notClosed'],
  ['the end before the identity is known', identityPassedOver, 'endDraw', 'identityOpen'],
  ['a band after the end', closed, 'bandOn', 'closed'],
  ['an arm after the end', closed, 'chooseArm:left', 'closed'],
  ['taking back after the end', closed, 'goBack', 'closed'],
  ['dealt with, when nothing is open', site, 'exceptionHandled', 'nothingOpen'],
  ['flow restored that never was lost', filling, 'flowRestored', 'nothingOpen'],
  ['going on that was never interrupted', site, 'resumeDraw', 'nothingOpen'],
] // prettier-ignore

describe('what cannot be true is turned down with the reason', () => {
  it.each(TURNED_DOWN)('%s', (_name, to, key, why) => {
    const draw = drawDriver()
    to(draw)
    draw.advance(1000)
    const before = draw.log().length
    expect(draw.tries(key)).toEqual({ kind: 'impossible', why })
    expect(draw.log().length).toBe(before)
  })
})

const FLAGGED: readonly (readonly [string, Place, CommandKey | Command, Flag, DrawEvent['type']])[] = [
  ['a needle before the identity', start, 'needleIn', 'identityNotChecked', 'needleIn'],
  ['a needle before consent', start, 'needleIn', 'consentNotRecorded', 'needleIn'],
  ['a needle through skin not cleaned', start, 'needleIn', 'skinNotClean', 'needleIn'],
  ['a needle through wet skin', (draw) => draw.does(...TO_CLEAN), 'needleIn', 'skinNotDry', 'needleIn'],
  ['dry after two seconds', (draw) => draw.does(...TO_CLEAN), 'skinDry', 'skinNotDry', 'skinDry'],
  ['the needle out with the band on', inVein, 'needleOut', 'needleOutBandOn', 'needleOut'],
  ['pressing with the band on', inVein, 'pressureOn', 'needleOutBandOn', 'needleOut'],
  ['the needle out with a tube on', filling, 'needleOut', 'needleOutTubeOn', 'needleOut'],
  ['a tube out of order', (draw) => { toNeedleIn(draw); draw.does('flashSeen') }, { type: 'tubeOnNamed', tubeId: 't2' }, 'wrongOrder', 'tubeOn'],
  ['sharps before the shield', out, 'sharpsDone', 'shieldNotClicked', 'sharpsDone'],
  ['bleeding stopped after a second', out, 'bleedingStopped', 'pressureShort', 'bleedingStopped'],
  ['a bandage at once', (draw) => { out(draw); draw.does('bleedingStopped') }, 'bandageOn', 'siteNotWatched', 'bandageOn'],
  ['labels not read back', labels, 'labelsDone', 'labelsNotReadBack', 'labelsDone'],
  ['a label that does not match', labels, 'labelWrong', 'labelMismatch', 'labelReadBack'],
  ['a foreign label', labels, { type: 'scanLabel', text: 'ELSE' }, 'labelMismatch', 'flagRaised'],
  ['a needle after consent was withdrawn', (draw) => { site(draw); draw.does('withdrawConsent') }, 'needleIn', 'afterStop', 'needleIn'],
  ['the restricted arm', site, 'chooseArm:right', 'restrictedArm', 'siteChosen'],
] // prettier-ignore

describe('what should not have been is recorded as it happened, and flagged', () => {
  it.each(FLAGGED)('%s', (_name, to, command, flag, event) => {
    const draw = drawDriver({
      preparation: {
        anticoagulant: 'none',
        latexAllergy: false,
        faintedBefore: false,
        restrictions: { right: 'fistula' },
      },
    })
    to(draw)
    draw.advance(1000)
    expect(draw.tries(command).kind).toBe('record')
    const events = draw.last()
    expect(events.map(({ type }) => type)).toContain(event)
    expect(events.flatMap((each) => (each.type === 'flagRaised' ? [each.flag] : []))).toContain(
      flag,
    )
  })

  it('the straight draw is not flagged at all', () => {
    const draw = drawDriver()
    closed(draw)
    expect(draw.flags()).toEqual([])
    expect(draw.state().closed?.outcome).toBe('complete')
  })
})

describe('times that decide a flag, to the second', () => {
  const flagged = (to: Place, wait_ms: number, key: CommandKey, flag: Flag): boolean => {
    const draw = drawDriver()
    to(draw)
    draw.advance(wait_ms)
    draw.tries(key)
    return draw.flags().includes(flag)
  }
  const released: Place = (draw) => {
    banded(draw)
    draw.advance(61_000)
    draw.does('bandOff')
  }

  it.each([
    ['band over 60 s (CLSI GP41 as summarized in training texts)', banded, 60, 'bandOff', 'bandOverLimit', 'after'],
    ['rest of 120 s (CLSI GP41 as summarized in training texts)', released, 120, 'bandOn', 'bandBeforeRest', 'before'],
    ['drying for 30 s (hospital blood culture procedures)', (draw: DrawDriver) => draw.does(...TO_CLEAN), 30, 'skinDry', 'skinNotDry', 'before'],
    ['pressure for 120 s (patient leaflet: at least 2 min)', out, 120, 'bleedingStopped', 'pressureShort', 'before'],
  ] as const)('%s', (_name, to, limit_s, key, flag, side) => {
    const [just, over] = side === 'after' ? [limit_s * 1000, limit_s * 1000 + 1] : [limit_s * 1000, limit_s * 1000 - 1]
    expect(flagged(to, just, key, flag)).toBe(false)
    expect(flagged(to, over, key, flag)).toBe(true)
  }) // prettier-ignore

  it('watching for 10 s before the bandage (watch 5-10 s, CLSI GP41-A7 as explained in a 2018 column)', () => {
    const stopped: Place = (draw) => {
      out(draw)
      draw.advance(120_000)
      draw.does('bleedingStopped')
    }
    expect(flagged(stopped, 10_000, 'bandageOn', 'siteNotWatched')).toBe(false)
    expect(flagged(stopped, 9999, 'bandageOn', 'siteNotWatched')).toBe(true)
  })

  it('pressure for 300 s with a blood thinner (Geriatr Nurs 2026;69:103918)', () => {
    for (const [wait_ms, short] of [[300_000, false], [299_999, true]] as const) {
      const draw = drawDriver({
        preparation: { anticoagulant: 'other', latexAllergy: false, faintedBefore: false, restrictions: {} },
      })
      out(draw)
      draw.advance(wait_ms)
      draw.tries('bleedingStopped')
      expect(draw.flags().includes('pressureShort')).toBe(short)
    } // prettier-ignore
  })

  // A training summary of CLSI GP41: "if more than one minute, re-apply after two mins".
  it('a short stretch, as for finding the vein, asks for no rest; short ones that add up past the minute do', () => {
    const draw = drawDriver()
    dry(draw)
    for (const seconds of [20, 38]) {
      draw.does('bandOn')
      draw.advance(1000 * seconds)
      draw.does('bandOff')
    }
    expect(draw.flags()).toEqual([])
    draw.does('bandOn')
    expect(draw.flags()).toEqual([])
    draw.advance(10_000)
    draw.does('bandOff', 'bandOn')
    expect(draw.flags()).toEqual(['bandBeforeRest'])
  })

  it('the band tightened again because blood stopped coming is not flagged', () => {
    const draw = drawDriver()
    banded(draw)
    draw.does('needleIn', 'flashSeen', 'tubeOn')
    draw.advance(65_000)
    draw.does('bandOff', 'flowLost')
    expect(draw.open().step).toContain('bandOn')
    draw.does('bandOn')
    expect(draw.flags()).toEqual(['bandOverLimit'])
    expect(draw.step()).toBe('filling')
    draw.does('flowRestored')
    expect(draw.step()).toBe('release')
  })

  it('an artery is pressed longer still under a blood thinner (common practice, no source)', () => {
    const needed = (anticoagulant: 'none' | 'other'): number => {
      const draw = drawDriver({
        preparation: {
          anticoagulant,
          latexAllergy: false,
          faintedBefore: false,
          restrictions: {},
        },
      })
      inVein(draw)
      draw.does('brightBlood')
      return pressureNeeded_s(draw.state())
    }
    expect(needed('none')).toBe(300)
    expect(needed('other')).toBe(600)
  })

  it('the other arm needs no rest', () => {
    const draw = drawDriver()
    released(draw)
    draw.does('chooseArm:right', 'bandOn')
    expect(draw.flags()).not.toContain('bandBeforeRest')
  })

  it('labels more than 5 min after the bandage (reminder: common practice, no source)', () => {
    expect(flagged(labels, 300_000, 'labelsDone', 'labelsLate')).toBe(false)
    expect(flagged(labels, 300_001, 'labelsDone', 'labelsLate')).toBe(true)
  })
})

describe('attempts: two a person, then somebody else (NSRR HeartBEAT study manual)', () => {
  const attempt = (draw: DrawDriver): void => {
    draw.does('chooseArm:left', 'chooseVein:hand', 'skinClean')
    draw.advance(130_000)
    draw.does(
      'skinDry',
      'bandOn',
      'needleIn',
      'bandOff',
      'pressureOn',
      'shieldClicked',
      'sharpsDone',
    )
    draw.advance(300_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn')
  }

  it('the third is not offered to the same person, only to a colleague who identifies the patient anew', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS)
    attempt(draw)
    expect(draw.open().main).toBe('tryAgain')
    draw.does('tryAgain')
    attempt(draw)
    expect(draw.step()).toBe('colleague')
    expect(draw.tries('tryAgain')).toEqual({ kind: 'impossible', why: 'twoAttempts' })
    draw.tries({ type: 'handOver', to: secondCollector })
    expect(draw.step()).toBe('identity')
    draw.does('confirmPatient', 'tryAgain', 'confirmHands')
    attempt(draw)
    expect(draw.flags()).not.toContain('thirdAttempt')
    expect(draw.step()).toBe('again')
  })

  it('a third by the same person is recorded and flagged', () => {
    const draw = drawDriver()
    for (let i = 0; i < 3; i++) {
      draw.does('needleIn', 'pressureOn')
    }
    expect(draw.log().filter(({ event }) => event.type === 'needleIn').length).toBe(3)
    expect(draw.flags().filter((flag) => flag === 'thirdAttempt').length).toBe(1)
  })
})
