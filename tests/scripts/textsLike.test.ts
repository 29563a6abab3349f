import { toJsonSchema } from '@valibot/to-json-schema'
import Ajv from 'ajv'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { textsLike } from '../../scripts/schemas/textsLike.ts'

const english = {
  language: 'en',
  title: 'Chart note',
  left: '{tube} is {late_s} s late.',
  tubes: { one: '{n} tube for {who}', other: '{n} tubes for {who}' },
  points: ['First this.', 'Then {what}.'],
  steps: { band: { title: 'Band' }, needle: { title: 'Needle' } },
}
const german = {
  language: 'de',
  title: 'Protokoll',
  left: 'Seit {late_s} s wartet {tube}.',
  tubes: { one: 'Ein Röhrchen für {who}', other: '{n} Röhrchen für {who}' },
  points: ['Erst dies.', '{what} danach.'],
  steps: { band: { title: 'Stauschlauch' }, needle: { title: 'Kanüle' } },
}
const RULES = { keys: { '/steps': ['band', 'needle'] }, most: { '/steps/*/title': 20 } }

const schema = textsLike(english, RULES)
const published = new Ajv({ strict: false }).compile(
  toJsonSchema(schema, { errorMode: 'ignore' }) as object,
)
/** What the schema says, and an independent validator with the published form of it. */
const fits = (data: unknown): readonly boolean[] => [v.is(schema, data), published(data) === true]

describe('the schema of a file of texts', () => {
  it('takes the English file and a translation of it', () => {
    expect(fits(english)).toEqual([true, true])
    expect(fits(german)).toEqual([true, true])
  })

  it('takes as many plural forms as a language has, or one text where it has none', () => {
    const forms = { one: '{who}: {n}', few: '{n} {who}', many: '{n} {who}', other: '{n} {who}' }
    expect(fits({ ...german, tubes: forms })).toEqual([true, true])
    expect(fits({ ...german, tubes: '{who}: {n}' })).toEqual([true, true])
  })

  it.each([
    ['a text that is missing', { title: undefined }],
    ['an empty text', { title: '' }],
    ['a text that nobody asks for', { more: 'Mehr' }],
    ['a name that was lost', { left: 'Seit {late_s} s.' }],
    ['a name that was translated', { left: '{tube} ist {spaet_s} s zu spät.' }],
    ['a name more than there is', { left: '{tube} {late_s} {who}' }],
    ['a name where none is filled', { title: 'Protokoll {who}' }],
    ['a plural without the form that always exists', { tubes: { one: '{n} {who}' } }],
    ['a plural that lost a name', { tubes: { one: 'eins', other: '{n} {who}' } }],
    ['a plural where nothing is counted', { title: { one: 'a', other: 'b' } }],
    ['a point too few', { points: ['Erst dies.'] }],
    ['points in another order', { points: ['{what} danach.', 'Erst dies.'] }],
    ['a step without words', { steps: { band: { title: 'Stauschlauch' } } }],
    [
      'a title too long',
      { steps: { band: { title: 'x'.repeat(21) }, needle: { title: 'Kanüle' } } },
    ],
    ['a language that is none', { language: 'German' }],
  ])('refuses %s', (_name, change) => {
    expect(fits(JSON.parse(JSON.stringify({ ...german, ...change })))).toEqual([false, false])
  })

  it('asks for what the code knows also where the English file lacks it', () => {
    const more = textsLike(english, { keys: { '/steps': ['band', 'needle', 'flash'] } })
    expect(v.is(more, english)).toBe(false)
    const { needle: _needle, ...steps } = english.steps
    expect(v.is(textsLike(english, { keys: { '/steps': ['band'] } }), english)).toBe(false)
    expect(v.is(schema, { ...english, steps })).toBe(false)
  })
})
