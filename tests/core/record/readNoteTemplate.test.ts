import Ajv from 'ajv'
import { describe, expect, it } from 'vitest'
import { LIMIT_KEYS } from '../../../src/core/policy/policy.ts'
import { FLAGS } from '../../../src/core/protocol/events.ts'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { NOTE_FIELD_NAMES } from '../../../src/core/record/noteFieldNames.ts'
import { noteFields } from '../../../src/core/record/noteFields.ts'
import { noteWords } from '../../../src/core/record/noteWords.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { readNoteTemplate } from '../../../src/core/record/readNoteTemplate.ts'
import noteJson from '../../../src/data/en/note.json' with { type: 'json' }
import noteSchema from '../../../src/data/schema/note.schema.json' with { type: 'json' }
import { noteTemplate } from '../../support/noteTemplate.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

describe('the wording of the note', () => {
  it('fits its JSON schema', () => {
    const validate = new Ajv({ strict: true }).compile(noteSchema)
    expect(validate(noteJson) ? [] : validate.errors).toEqual([])
  })

  it('has words for every flag, exception and limit, and names no field that there is not', () => {
    expect(Object.keys(noteJson.flags).sort()).toEqual([...FLAGS].sort())
    expect(Object.keys(noteJson.exceptions).sort()).toEqual([...EXCEPTION_KINDS].sort())
    expect(Object.keys(noteJson.limits).sort()).toEqual([...LIMIT_KEYS].sort())
    expect(() => readNoteTemplate(noteJson)).not.toThrow()
  })

  it('has the fields that it is documented to have', () => {
    const log = sampleLog({
      opening: {
        policyChanges: [{ key: 'bandLimit_s', from: 60, to: 90 }],
        plan: samplePlan([
          sampleTube('t1', 'plain', { role: 'discard' }),
          sampleTube('t2', 'activatorGel'),
          sampleTube('t3', 'edtaK2'),
        ]),
      },
      add: [
        [30, { type: 'flagRaised', flag: 'wrongOrder' }],
        [31, { type: 'exceptionRaised', kind: 'nausea' }],
        [32, { type: 'noteAdded', text: 'x' }],
        [34, { type: 'fistNoted' }],
        [33, { type: 'clockStepped', by_ms: 2000 }],
        [116, { type: 'tubeSwapped', tubeId: 't1', why: 'noVacuum' }],
        [345, { type: 'unlabelledSettled', tubeId: 't2', how: 'sentAsIs', by: 'RE' }],
        [346, { type: 'entryUndone', seq: 2 }],
      ],
      without: (event) => 'tubeId' in event && event.tubeId === 't3',
    })
    const words = noteWords(noteTemplate, log.entries[0]!.at, (code) => code)
    const risks = specimenRisks(log, texts.record)
    const fromSkin = sampleLog({ opening: { collecting: 'capillaryHeel' } })
    const fields = {
      ...noteFields(factsOf(log), log, words, risks),
      skin: noteFields(factsOf(fromSkin), fromSkin, words).skin,
    }
    for (const [scope, names] of Object.entries(NOTE_FIELD_NAMES)) {
      const repeats = fields[scope as keyof typeof fields]
      expect(repeats.length, scope).toBeGreaterThan(0)
      expect(Object.keys(repeats[0]!).sort(), scope).toEqual([...names].sort())
    }
  })

  it('says where a site has broken it', () => {
    expect(() => readNoteTemplate({ ...noteJson, title: 5 })).toThrow(/note template.title/)
    const { swelling: _swelling, ...exceptions } = noteJson.exceptions
    expect(() => readNoteTemplate({ ...noteJson, exceptions })).toThrow(/exceptions.swelling/)
    const sections = [{ title: 'A', each: 'draw', lines: [{ label: 'B', value: '{nosuch}' }] }]
    expect(() => readNoteTemplate({ ...noteJson, sections })).toThrow(/no field \{nosuch\}/)
  })
})
