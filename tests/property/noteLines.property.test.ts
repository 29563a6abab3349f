import fc from 'fast-check'
import { expect, it } from 'vitest'
import { writeNote } from '../../src/core/record/note.ts'
import { noteTemplate } from '../support/noteTemplate.ts'
import { sampleLog, sampleOpening } from '../support/sampleLog.ts'

/** Mandatory breaks of UAX #14 (BK, CR, LF, NL), and the words a forger would put behind one. */
const piece = fc.oneof(
  fc.constantFrom('\n', '\r', '\r\n', '\u0085', '\u2028', '\u2029', '\v', '\f', '\t'),
  fc.constantFrom('Consent: given 09:00:01', '    | ', '  | ', 'After the draw', '{at}', '  1. '),
  fc.string({ unit: 'binary', maxLength: 6 }),
)
const text = fc.array(piece, { minLength: 1, maxLength: 6 }).map((parts) => `x${parts.join('')}`)

interface Texts {
  readonly name: string
  readonly number: string
  readonly order: string
  readonly provider: string
  readonly site: string
  readonly person: string
  readonly remark: string
  readonly tube: string
  readonly lot: string
  readonly addendum: string
  readonly why: string
}

function noteOf(texts: Texts): string {
  const opening = sampleOpening()
  const person = { id: 'c1', name: texts.person, initials: texts.person }
  const tubes = opening.plan.tubes.map((tube) => ({ ...tube, name: texts.tube, lot: texts.lot }))
  const log = sampleLog({
    opening: {
      site: texts.site,
      device: texts.site,
      collector: person,
      patient: { ...opening.patient, fullName: texts.name, recordNumber: texts.number },
      order: { ...opening.order, orderNumber: texts.order, provider: texts.provider, tests: [texts.order] }, // prettier-ignore
      plan: { ...opening.plan, tubes },
    },
    add: [
      [200, { type: 'noteAdded', text: texts.remark }],
      [201, { type: 'exceptionRaised', kind: 'interrupted', note: texts.remark }],
      [202, { type: 'exceptionEnded', kind: 'interrupted', how: texts.remark }],
      [210, { type: 'planRevised', plan: { ...opening.plan, tubes }, why: texts.why }],
      [400, { type: 'addendumMade', by: person, text: texts.addendum, why: texts.why }],
    ],
  })
  return writeNote(log, noteTemplate, () => texts.tube).text
}

const plain: Texts = { name: 'x', number: 'x', order: 'x', provider: 'x', site: 'x', person: 'x', remark: 'x', tube: 'x', lot: 'x', addendum: 'x', why: 'x' } // prettier-ignore

const breaks = /\r\n|[\n\r\u2028\u2029\u0085\v\f]/
/** Each line up to what a field fills it with: the text before the colon of a label, else its indent. */
function headsOf(note: string): string[] {
  return note
    .split(breaks)
    .filter((line) => !line.startsWith('    | '))
    .map((line) => /^ *[^:x]*(?=:|x|$)/.exec(line)?.[0] ?? '')
}

it('the note has the same lines, whatever is written in any of its fields', () => {
  const expected = headsOf(noteOf(plain))
  // Far more than one line, or nothing was compared.
  expect(expected.length).toBeGreaterThan(40)
  const texts = fc.record<Texts>({ name: text, number: text, order: text, provider: text, site: text, person: text, remark: text, tube: text, lot: text, addendum: text, why: text }) // prettier-ignore
  fc.assert(
    fc.property(texts, (some) => {
      expect(headsOf(noteOf(some))).toEqual(expected)
    }),
    { numRuns: 300 },
  )
})
