import { describe, expect, it } from 'vitest'
import { checkLog } from '../../../../src/core/log/checkLog.ts'
import { logFaultSentence } from '../../../../src/core/log/logTexts.ts'
import { sealAll } from '../../../../src/core/log/seal.ts'
import { impossible } from '../../../../src/core/log/sense/impossible.ts'
import type { DrawLog, UnsealedEntry } from '../../../../src/core/protocol/entry.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { sampleLog, sampleOpening, sha256, stampAt, type Line } from '../../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../../support/samplePlan.ts'

const opened = (change: object): DrawLog => sampleLog({ opening: change })
const patient = (change: object): DrawLog =>
  opened({ patient: { ...sampleOpening().patient, ...change } })
const plan = (change: object): DrawLog => opened({ plan: { ...samplePlan(), ...change } })
const limit = (key: string, value: number): DrawLog => {
  const { policy } = sampleOpening()
  const limits = { ...policy.limits, [key]: { value, source: 'x', backing: 'site' } }
  return opened({ policy: { ...policy, limits } })
}
const added = (...add: readonly Line[]): DrawLog => sampleLog({ add })

/** The straight draw with the stamp of one entry changed, sealed again as a forger would. */
function stamped(seq: number, change: object): DrawLog {
  const log = sampleLog()
  const bare = log.entries.map(({ previous: _p, hash: _h, ...rest }): UnsealedEntry => rest)
  const entries = bare.map((e) => (e.seq === seq ? { ...e, at: { ...e.at, ...change } } : e))
  return { ...log, entries: sealAll(entries, sha256) }
}

describe('what cannot have been so', () => {
  it('is nothing in a draw that was', () => {
    expect(impossible(sampleLog())).toBeUndefined()
  })

  it.each([
    [
      'the shortened waits of practice in the draw of a patient',
      opened({
        invented: false,
        sitting: { series: 'x', parts: [], practice: { script: 'whole-series', hour_min: 6 } },
      }),
      'practiceWaits',
    ],
    [
      'a draw number with a letter that bars cannot hold',
      opened({ drawId: 'ÄB-20261125-0001' }),
      'drawId',
    ],
    ['a draw number without end', opened({ drawId: 'D7-20261125-Infinity' }), 'drawId'],
    [
      'two tubes of one number',
      plan({ tubes: [sampleTube('t1', 'citrate'), sampleTube('t1', 'edtaK2')] }),
      'tubeTwice',
    ],
    [
      'a tube with the name of a prototype',
      plan({ tubes: [sampleTube('__proto__', 'citrate')] }),
      'tubeId',
    ],
    [
      'a tube with a name that every object has',
      plan({ tubes: [sampleTube('constructor', 'citrate')] }),
      'tubeId',
    ],
    [
      'a revised plan with two tubes of one number',
      added([
        200,
        {
          type: 'planRevised',
          plan: samplePlan([sampleTube('t4', 'citrate'), sampleTube('t4', 'edtaK2')]),
          why: 'x',
        },
      ]),
      'tubeTwice',
    ],
    [
      'a name that turns the writing',
      patient({ fullName: 'Alex\u202E Invented' }),
      'unreadableText',
    ],
    [
      'a number with a line break',
      patient({ recordNumber: 'M1\nConsent: given' }),
      'unreadableText',
    ],
    [
      'a family name that is not in the full name',
      patient({ familyName: 'Second', givenNames: 'Alex' }),
      'nameParts',
    ],
    ['a birth date that is no day', patient({ birthDate: '2026-02-31' }), 'noSuchDay'],
    ['a birth date after the draw', patient({ birthDate: '2999-01-01' }), 'bornLater'],
    ['a birth date in another age', patient({ birthDate: '1850-01-01' }), 'bornTooEarly'],
    ['a negative weight', patient({ weight_kg: -3 }), 'amount'],
    [
      'a negative volume',
      plan({ tubes: [sampleTube('t1', 'citrate', { nominal_mL: -2.7 })] }),
      'amount',
    ],
    [
      'a least volume above the whole',
      plan({ tubes: [sampleTube('t1', 'citrate', { least_mL: 99 })] }),
      'amount',
    ],
    [
      'a negative estimate',
      added([141, { type: 'tubeOff', tubeId: 't2', fill: 'short', estimate_mL: -1 }]),
      'amount',
    ],
    [
      'a needle of a meter',
      opened({ needleSet: { ...sampleOpening().needleSet, needle_mm: 1000 } }),
      'amount',
    ],
    ['a limit without end', limit('bandLimit_s', 1e308), 'limit'],
    ['a limit below zero', limit('pressure_s', -1), 'limit'],
    [
      'a change of a limit that there is not',
      opened({ policyChanges: [{ key: 'constructor', from: 1, to: 2 }] }),
      'unknownLimit',
    ],
    ['the opening taken back', added([200, { type: 'entryUndone', seq: 1 }]), 'openingUndone'],
    [
      'an entry taken back before it stood',
      added([20, { type: 'entryUndone', seq: 30 }]),
      'undoneAhead',
    ],
    [
      'an addendum to an open draw',
      added([200, { type: 'addendumMade', by: sampleOpening().collector, text: 'x', why: 'y' }]),
      'addendumEarly',
    ],
    ['a page clock that runs back', stamped(9, { mono_ms: 1 }), 'monoBack'],
    [
      'a charted time that no clock shows',
      stamped(39, { at_ms: stampAt(0).at_ms + 10 * 365 * 86_400_000 }),
      'clocksApart',
    ],
    [
      'a wall clock far from the charted time',
      stamped(1, { wall_ms: stampAt(0).at_ms + 600_000 }),
      'clocksApart',
    ],
    ['a time zone that there is nowhere', stamped(5, { offset_min: 2000 }), 'noSuchOffset'],
    ['a year of five digits', stamped(39, { at_ms: 8e15, wall_ms: 8e15 }), 'noSuchYear'],
  ])('%s', (_what, log, id) => {
    const fault = impossible(log)
    expect(fault).toMatchObject({ kind: 'impossible', id })
    expect(fault && logFaultSentence(fault, texts.log)).toMatch(/^[A-Z].*\.$/)
    expect(fault && logFaultSentence(fault, texts.log)).not.toMatch(/[{}]|\u202E/)
    // It is well formed and sealed: no other check would have found it.
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
  })

  it('lets every clock be set: a jump forward or back is explained by it', () => {
    const day_ms = 86_400_000
    for (const by_ms of [day_ms, -day_ms, 3_600_000, 10 * 365 * day_ms]) {
      const log = sampleLog()
      let last_ms = 0
      const entries = log.entries.map(({ previous: _p, hash: _h, ...rest }): UnsealedEntry => {
        const wall_ms = rest.at.wall_ms + (rest.seq > 20 ? by_ms : 0)
        // As `stampAfter` places it: with the wall clock, or bridged where that was set back.
        const at_ms = Math.max(last_ms, by_ms < 0 ? rest.at.at_ms : wall_ms)
        last_ms = at_ms
        return { ...rest, at: { ...rest.at, wall_ms, at_ms } }
      })
      expect(impossible({ ...log, entries: sealAll(entries, sha256) })).toBeUndefined()
    }
  })

  it('refuses a log with more entries than any draw has, without looking at each', () => {
    const log = sampleLog()
    const last = log.entries.at(-1)!
    expect(
      impossible({ ...log, entries: Array.from({ length: 20_001 }, () => last) }),
    ).toMatchObject({
      id: 'tooMany',
    })
  })
})
