import { describe, expect, it } from 'vitest'
import { createSeal } from '../../../src/core/log/seal.ts'
import { unexplained } from '../../../src/core/log/sense/unexplained.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import type { Decision } from '../../../src/core/protocol/decision.ts'
import type { DrawLog, LogEntry } from '../../../src/core/protocol/entry.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { labelNumber } from '../../../src/core/protocol/facts.ts'
import { looksLikeSpecimenNumber } from '../../../src/core/protocol/specimenNumber.ts'
import { transition } from '../../../src/core/protocol/transition.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { logOf, sampleLog, sampleOpening, sha256, stampAt, straightLines, type Line } from '../../support/sampleLog.ts' // prettier-ignore

const seal = createSeal(sha256)
const OLD = 'D7261125000302'
const NEW = 'D7261125000351'

/** A draw with three tubes off, before labels; the rest is done command by command, 1 s apart. */
function rig(before_s = 160) {
  const log = logOf(straightLines(sampleOpening()).filter(([at_s]) => at_s < before_s))
  let entries: readonly LogEntry[] = log.entries
  let state = replay(entries)
  let at_s = before_s
  return {
    give(command: Command, confirmed = false): Decision {
      at_s += 1
      const given = { now: stampAt(at_s), source: 'touch' as const, confirmed }
      const { decision, entries: more, state: next } = transition(state, command, given, seal)
      entries = [...entries, ...more]
      state = next
      return decision
    },
    state: () => state,
    log: (): DrawLog => ({ ...log, entries }),
  }
}

const drop = (tubeId: string): Command => ({ type: 'raise', kind: 'droppedTube', tubeId })
const plain = (type: 'tubeOn' | 'tubeFull' | 'goBack' | 'noVacuum' | 'wrongTube'): Command => ({
  type,
})

/** The second of three tubes falls and is drawn again while the needle is in. */
function redrawn() {
  const draw = rig()
  draw.give(drop('t2'))
  draw.give(plain('tubeOn'))
  draw.give(plain('tubeFull'))
  return draw
}

describe('a tube that is drawn in the place of a lost one', () => {
  it('has a number of its own in state, label and bundle', () => {
    const draw = redrawn()
    expect(labelNumber(draw.state(), 't2')).toBe(NEW)
    const labels = labelsFor(draw.log())
    expect(labels.map(({ tubeId, specimenNumber }) => [tubeId, specimenNumber])).toContainEqual([
      't2',
      NEW,
    ])
    const specimens = ofType(bundleOf(draw.log()), 'Specimen')
    expect(specimens.map(({ identifier }) => identifier[0]?.value)).toContain(NEW)
    expect(JSON.stringify(specimens.map(({ identifier }) => identifier))).not.toContain(OLD)
    expect(JSON.stringify(specimens)).toContain(`Drawn in place of ${OLD}: dropped`)
    expect(looksLikeSpecimenNumber(NEW)).toBe(true)
  })

  it('is another resource than the lost one, which may have gone out before', () => {
    const before = ofType(bundleOf(rig().log()), 'Specimen').map(({ id }) => id)
    const after = ofType(bundleOf(redrawn().log()), 'Specimen').map(({ id }) => id)
    expect(after.filter((id) => !before.includes(id))).toHaveLength(1)
  })

  it('changes no label that is already on another tube', () => {
    const places = (log: DrawLog) =>
      new Map(labelsFor(log).map(({ tubeId, position, of }) => [tubeId, `${position} of ${of}`]))
    const before = places(rig().log())
    const after = places(redrawn().log())
    expect(after).toEqual(before)
    expect([...after.values()].sort()).toEqual(['1 of 3', '2 of 3', '3 of 3'])
  })

  it('leaves the lost one charted with its number and its reason', () => {
    const { text } = recordNote(redrawn().log(), texts)
    expect(text).toContain(`Drawn in place of: ${OLD} (dropped)`)
    expect(text).toMatch(new RegExp(`dropped, .*\\n(.*\\n)? +Its number: ${OLD}, not given again`))
  })

  it('refuses the old number with a sentence and charts that it was scanned', () => {
    const draw = redrawn()
    expect(draw.give({ type: 'scanLabel', text: `${OLD}\r\n` })).toMatchObject({
      kind: 'record',
      events: [{ type: 'flagRaised', flag: 'lostTubeLabel', detail: OLD }],
    })
    expect(draw.state().readBack['t2']).toBeUndefined()
    expect(draw.give({ type: 'scanLabel', text: NEW })).toMatchObject({
      events: [{ type: 'labelReadBack', tubeId: 't2', matches: true }],
    })
  })

  it('never has a number twice, however often it is lost and taken back', () => {
    const draw = rig()
    const given = new Set<string>()
    for (const command of [
      drop('t2'),
      plain('goBack'),
      drop('t2'),
      plain('tubeOn'),
      plain('noVacuum'),
      drop('t3'),
    ] as const) {
      // prettier-ignore
      draw.give(command)
      for (const { event } of draw.log().entries) {
        if (event.type === 'tubeSwapped') given.add(String(event.redrawnAs))
      }
    }
    expect([...given]).toEqual(['51', '52', '53', '54'])
  })

  it('keeps its number where no blood had gone towards it: no label can be on the one set aside', () => {
    const draw = rig(116)
    expect(draw.give(plain('wrongTube'))).toMatchObject({ kind: 'record' })
    const swaps = draw.log().entries.filter(({ event }) => event.type === 'tubeSwapped')
    expect(swaps.map(({ event }) => event)).toEqual([
      { type: 'tubeSwapped', tubeId: draw.state().tubes[0]?.id, why: 'wrongTube' },
    ])
  })
})

describe('a record from before redrawn tubes had numbers of their own', () => {
  const add: Line[] = [
    [158, { type: 'exceptionRaised', kind: 'droppedTube', tubeId: 't3' }],
    [158, { type: 'tubeSwapped', tubeId: 't3', why: 'droppedTube' }],
    [159, { type: 'tubeOn', tubeId: 't3' }, { source: 'touch' }],
    [165, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
  ]
  const log = sampleLog({ add })

  it('reads as it was: the same number, and its read-back counts', () => {
    const label = labelsFor(log).find(({ tubeId }) => tubeId === 't3')
    expect(label).toMatchObject({ specimenNumber: 'D7261125000303', readBack: true })
    expect(unexplained(log)).not.toContain(
      log.entries.find(({ event }) => event.type === 'exceptionRaised')?.seq,
    )
  })
})
