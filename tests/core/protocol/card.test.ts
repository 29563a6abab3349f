import { describe, expect, it } from 'vitest'
import { bloodTaken } from '../../../src/core/protocol/bloodTaken.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { commandOf } from '../../../src/core/protocol/openCommands.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { stepOf } from '../../../src/core/protocol/steps.ts'
import { drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'
import { CARD_OPENING } from '../../walk/walkedOpening.ts'

/** A card of two circles and an EDTA tube, from the heel. */
const card = (change: Parameters<typeof drawDriver>[0] = {}): DrawDriver =>
  drawDriver({ ...CARD_OPENING, ...change })

const ASKED = ['ageTold:dayOrMore', 'feeding:breast', 'transfusedNo'] as const
const TO_BLOOD = ['confirmPatient', 'confirmConsent', 'confirmPreparation', 'latexNo', 'thinner:none', 'faintedNo', ...ASKED, 'confirmSupplies', 'cardChecked', 'confirmHands', 'chooseSide:left', 'siteWarm', 'skinClean', 'skinDry', 'lanced', 'dropWiped'] as const // prettier-ignore

function filled(draw: DrawDriver): void {
  draw.does(...TO_BLOOD, 'circleGood', 'circleGood', 'cardDone')
}

describe('a newborn card', () => {
  // Steps as on state newborn screening pages (slph.dph.ncdhhs.gov, kdheks.gov, newbornscreening.health.utah.gov).
  it('goes from its check over one drop a circle to flat and dry', () => {
    const draw = card()
    const seen: string[] = []
    const way = [...TO_BLOOD, 'circleGood', 'circleGood', 'cardDone', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'laidFlat', 'bleedingStopped'] as const // prettier-ignore
    for (const key of way) {
      seen.push(draw.step())
      draw.does(key)
    }
    expect(seen.slice(6, 11)).toEqual(['born', 'feeding', 'transfused', 'supplies', 'card'])
    expect(seen.slice(17)).toEqual(['wipe', 'circle', 'circle', 'cardOff', 'tube', 'drops', 'mix', 'press', 'lancetAway', 'handling', 'bleeding'].slice(0)) // prettier-ignore
    expect(draw.flags()).toEqual(['skinNotDry'])
  })

  it('is on the same step, with the same clocks, after a reload at every command', () => {
    const draw = card()
    const marks: (readonly [n: number, step: string, clocks: number])[] = []
    for (const key of [...TO_BLOOD, 'circleGood', 'circleBad:layered', 'cardDone', 'laidFlat', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'bleedingStopped'] as const) {
      draw.does(key)
      marks.push([draw.log().length, draw.step(), clocksOf(draw.state()).length])
    } // prettier-ignore
    for (const [n, step, clocks] of marks) {
      const again = replay(draw.log().slice(0, n))
      expect([stepOf(again).id, clocksOf(again).length]).toEqual([step, clocks])
    }
  })

  it('what is asked about the newborn may be passed over, and what the order told is not asked', () => {
    const passed = card()
    passed.does(
      'confirmPatient',
      'confirmConsent',
      'confirmPreparation',
      'latexNo',
      'confirmSupplies',
    )
    expect(passed.step()).toBe('card')
    const { preparation } = CARD_OPENING
    const told = card({ preparation: { ...preparation, bornAt: '2025-11-24T09:00', feeding: 'breast', transfused: false } }) // prettier-ignore
    told.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'latexNo', 'thinner:none', 'faintedNo') // prettier-ignore
    expect(told.step()).toBe('supplies')
  })

  // Under 24 h is early for a newborn card (med.unr.edu, newbornscreening.health.utah.gov, excerpts): it must be true.
  it('an age that the birth date contradicts is not taken', () => {
    const born = (birthDate: string) => card({ patient: { ...CARD_OPENING.patient, birthDate } })
    const answers = (birthDate: string) =>
      (['underDay', 'dayOrMore'] as const).map((age) =>
        born(birthDate).tries({ type: 'ageTold', age }),
      )
    expect(answers('2026-11-01')).toMatchObject([{ why: 'notByBirthDate' }, { kind: 'record' }])
    expect(answers('2026-11-24')).toMatchObject([{ kind: 'record' }, { kind: 'record' }])
    expect(answers('2026-11-25')).toMatchObject([{ kind: 'record' }, { why: 'notByBirthDate' }])
  })

  // Never layered or filled again: another card from the beginning (state newborn screening pages, excerpts).
  it('another card may be taken where a circle is not good, looked at anew, under a number of its own', () => {
    const draw = card()
    draw.does(...TO_BLOOD, 'circleGood', 'circleBad:layered', 'cardDone')
    expect(draw.open().step).toContain('anotherCard')
    const blood_mL = bloodTaken(draw.state()).most_mL
    draw.does('anotherCard')
    expect(draw.step()).toBe('card')
    expect(draw.state().redrawn).toEqual({ t1: 51 })
    expect(bloodTaken(draw.state()).most_mL).toBe(blood_mL)
    draw.does('cardChecked', 'circleGood', 'circleGood', 'cardDone')
    expect(draw.flags()).toEqual(['skinNotDry'])
    expect(bloodTaken(draw.state()).most_mL).toBe(2 * blood_mL)
    const lost = draw.log().filter(({ event }) => event.type === 'tubeSwapped')
    expect(lost.map(({ event }) => event)).toMatchObject([{ why: 'badCircles', redrawnAs: 51 }])
    const good = card()
    filled(good)
    expect(good.tries('anotherCard')).toMatchObject({ kind: 'impossible', why: 'noCard' })
  })

  it('another card after the place is closed needs another lancet', () => {
    const draw = card()
    draw.does(...TO_BLOOD, 'circleGood', 'circleBad:layered', 'cardDone', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'bleedingStopped', 'anotherCard') // prettier-ignore
    expect(draw.step()).toBe('again')
  })

  it('never fills a circle twice, and a press too many is turned down', () => {
    const draw = card()
    filled(draw)
    expect(draw.tries('circleGood')).toMatchObject({ kind: 'impossible', why: 'noCard' })
    const open = card()
    open.does(...TO_BLOOD, 'circleGood', 'circleGood')
    expect(open.tries('circleGood')).toMatchObject({ kind: 'impossible', why: 'circlesDone' })
    expect(open.open().main).toBe('cardDone')
  })

  it('asks before it is put down with circles left, and counts the blood of those that have a drop', () => {
    const draw = card()
    draw.does(...TO_BLOOD, 'circleBad:clotted')
    const asked = draw.dispatch(commandOf('cardDone'), 'voice', undefined, false)
    expect(asked).toMatchObject({ kind: 'ask', ask: 'circlesLeft' })
    draw.does('cardDone')
    expect(draw.state().tubes[0]).toMatchObject({ fill: 'short', circles: ['clotted'] })
    expect(bloodTaken(draw.state()).most_mL).toBeCloseTo(0.25)
  })

  it('a word for a tube puts it down as its circles are', () => {
    const draw = card()
    draw.does(...TO_BLOOD, 'circleGood', 'circleBad:insufficient', 'tubeFull')
    expect(draw.state().tubes[0]).toMatchObject({ fill: 'short' })
    const none = card()
    none.does(...TO_BLOOD, 'tubeOn', 'tubeShort')
    expect(none.state().tubes[0]).toMatchObject({ fill: 'empty' })
  })

  it('an expired one is set aside, and the next is checked anew', () => {
    const draw = card()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'latexNo', 'confirmSupplies', 'cardChecked', 'expiredTube') // prettier-ignore
    expect(draw.step()).toBe('card')
    draw.does('cardChecked')
    expect(draw.step()).toBe('hands')
  })

  it('that nobody looked at is filled all the same, and flagged', () => {
    const draw = card()
    draw.does(...TO_HANDS, 'lanced', 'circleGood')
    expect(draw.flags()).toContain('cardNotChecked')
  })

  it('a stop takes the card away before anything is pressed', () => {
    const draw = card()
    draw.does(...TO_BLOOD, 'circleGood', 'stopEverything')
    expect([draw.step(), draw.open().main]).toEqual(['takeOff', 'cardDone'])
    draw.does('cardDone')
    expect(draw.step()).toBe('press')
  })
})

describe('a card that dries', () => {
  // At least three hours flat: slph.dph.ncdhhs.gov and newbornscreening.health.utah.gov, excerpts.
  const HOURS_ms = 3 * 3_600_000

  function closed(): DrawDriver {
    const draw = card()
    filled(draw)
    draw.does('tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'laidFlat', 'bleedingStopped') // prettier-ignore
    draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
    return draw
  }

  it('has a clock that outlives the close and a reload', () => {
    const draw = closed()
    expect(draw.step()).toBe('cardDry')
    const clock = clocksOf(replay(draw.log())).find(({ kind }) => kind === 'cardDry')
    expect(clock).toMatchObject({ holds: 'wait', length_ms: HOURS_ms })
    draw.advance(HOURS_ms)
    draw.does('cardDried')
    expect(draw.step()).toBe('courier')
    expect(draw.flags()).not.toContain('cardWet')
    expect(clocksOf(draw.state()).map(({ kind }) => kind)).not.toContain('cardDry')
  })

  it('called dry or handed over too soon is recorded and flagged', () => {
    const early = closed()
    early.does('cardDried')
    expect(early.flags()).toContain('cardWet')
    const sent = closed()
    sent.does('courierTook')
    expect(sent.flags()).toContain('cardWet')
    expect(sent.step()).toBe('finished')
  })
})
