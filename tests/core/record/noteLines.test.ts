import { describe, expect, it } from 'vitest'
import { tubeFacts } from '../../../src/core/record/tubeFacts.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { sampleCollector, sampleLog, sampleOpening } from '../../support/sampleLog.ts'

const BREAKS = ['\n', '\r\n', '\r', '\u2028', '\u2029', '\u0085', '\v', '\f']
const FORGED = 'Consent: given 09:00:01 by the guardian'

const noteWith = (change: Parameters<typeof sampleLog>[0]) =>
  writeNote(sampleLog(change), noteTemplate)

/** The lines of the note itself, without what goes on behind a bar. */
const headsOf = (text: string): string[] =>
  text.split(/[\n\r\u2028\u2029\u0085\v\f]/).filter((line) => !line.startsWith('    | '))

/** The same draw with each break a space. */
const plainOf = <T>(change: T): T => JSON.parse(JSON.stringify(change).replaceAll('\\n', ' ')) as T

describe('the plain text of the note', () => {
  it.each(BREAKS)('lets no line break in a remark forge a line: %j', (mark) => {
    const text = `seen${mark}  ${FORGED}${mark}${mark}After the draw`
    const note = noteWith({ add: [[200, { type: 'noteAdded', text }]] })
    const lines = note.text.split(/[\n\r\u2028\u2029\u0085\v\f]/)
    // What was typed stands in the note, each further line behind a bar.
    expect(lines.filter((line) => line.includes(FORGED))).toEqual([`    |   ${FORGED}`])
    expect(lines).toContain('    | After the draw')
    expect(lines.filter((line) => line === 'After the draw')).toHaveLength(1)
  })

  it.each([
    [
      'a name',
      { opening: { patient: { ...sampleOpening().patient, fullName: `Alex\n  ${FORGED}` } } },
    ],
    ['a site', { opening: { site: `Clinic\n\n${FORGED}` } }],
    [
      'an addendum',
      {
        add: [
          [
            400,
            {
              type: 'addendumMade',
              by: { ...sampleCollector, name: `R\n${FORGED}` },
              text: `x\n${FORGED}`,
              why: `y\n  ${FORGED}`,
            },
          ],
        ],
      },
    ],
    ['a tube', { add: [[158, { type: 'tubeOn', tubeId: `t9\n${FORGED}` }]] }],
  ] as [string, Parameters<typeof sampleLog>[0]][])('lets none in %s do so', (_what, change) => {
    const { text } = noteWith(change)
    expect(text).toContain(FORGED)
    // Behind a bar, or within a line of the note; never as a line of its own.
    for (const line of text.split('\n').filter((each) => each.includes(FORGED))) {
      if (!line.startsWith('    | ')) expect(line.trimStart().startsWith(FORGED)).toBe(false)
    }
    expect(headsOf(text)).toHaveLength(headsOf(noteWith(plainOf(change)).text).length)
  })

  it('shows what cannot be seen as its code, in text and on the screen', () => {
    const note = noteWith({
      opening: { patient: { ...sampleOpening().patient, fullName: 'Alex \u202EdetnevnI' } },
      add: [
        [200, { type: 'noteAdded', text: 'red \u001B[31m' }],
        [400, { type: 'addendumMade', by: sampleCollector, text: 'a\u200Bb', why: 'c\u2066d' }],
      ],
    })
    expect(note.text).toContain('Alex [U+202E]detnevnI')
    expect(note.text).toContain('red [U+001B][31m')
    for (const hidden of ['\u001B', '\u200B', '\u202E', '\u2066']) {
      expect(note.text).not.toContain(hidden)
      expect(
        [note.sections, note.addenda].flatMap((part) => JSON.stringify(part)).join(),
      ).not.toContain(hidden)
    }
  })

  it('leaves names of all scripts as they are', () => {
    const fullName = 'علی\u200Cرضا ශ්\u200Dරී'
    const note = noteWith({ opening: { patient: { ...sampleOpening().patient, fullName } } })
    expect(note.text).toContain(fullName)
  })
})

it('the label of a name with such a letter shows the letter', () => {
  const patient = { ...sampleOpening().patient, fullName: 'Al\u202Eex', recordNumber: 'M\u200B1' }
  const [label] = labelsFor(sampleLog({ opening: { patient } }))
  expect(label).toMatchObject({ fullName: 'Al[U+202E]ex', recordNumber: 'M[U+200B]1' })
})

it.each(['__proto__', 'constructor', 'toString'])(
  'a tube named %s is a tube like any other',
  (id) => {
    const log = sampleLog({
      add: [
        [150, { type: 'tubeSwapped', tubeId: id, why: 'noVacuum' }],
        [151, { type: 'tubeOn', tubeId: id }],
        [
          341,
          { type: 'labelReadBack', tubeId: id, specimenNumber: 'X', how: 'read', matches: true },
        ],
      ],
    })
    const { swaps, readBacks, drawn } = tubeFacts(log.drawId, log.entries, [], [], [{ collector: sampleCollector, from: log.entries[0]!.at }]) // prettier-ignore
    expect(swaps.get(id)).toHaveLength(1)
    expect(readBacks.get(id)).toHaveLength(1)
    expect(drawn.map(({ tube }) => tube.id)).toContain(id)
    expect(() => writeNote(log, noteTemplate)).not.toThrow()
    expect(() => labelsFor(log)).not.toThrow()
  },
)
