import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'
import { LIMIT_KEYS } from '../../../src/core/policy/policy.ts'
import policy from '../../../src/data/policy.json' with { type: 'json' }
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import policySchema from '../../../src/data/schema/policy.schema.json' with { type: 'json' }
import promptsSchema from '../../../src/data/schema/prompts.schema.json' with { type: 'json' }
import wordsSchema from '../../../src/data/schema/words.schema.json' with { type: 'json' }
import words from '../../../src/data/en/words.json' with { type: 'json' }

const ajv = new Ajv({ allErrors: true })
const faults = (schema: object, data: unknown): readonly string[] => {
  const { $id: _id, ...rest } = schema as { $id?: string }
  const check = ajv.compile(rest)
  return check(data)
    ? []
    : (check.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)
}

describe('the shipped data files fit their schemas', () => {
  it.each([
    ['policy', policySchema, policy],
    ['words', wordsSchema, words],
    ['prompts', promptsSchema, prompts],
  ] as const)('%s', (_name, schema, data) => {
    expect(faults(schema, data)).toEqual([])
  })

  it('and the schema of the policy knows every limit there is', () => {
    expect(policySchema.properties.limits.required.toSorted()).toEqual([...LIMIT_KEYS].sort())
  })
})

describe('a slip is found', () => {
  const limits = (change: object) => ({ ...policy, limits: { ...policy.limits, ...change } })
  const band = policy.limits.bandLimit_s

  it.each([
    ['a band of ten minutes', policySchema, limits({ bandLimit_s: { ...band, value: 600 } })],
    ['a value without its source', policySchema, limits({ bandLimit_s: { value: 60, backing: 'site' } })],
    ['three attempts a person', policySchema, limits({ attemptsPerPerson_n: { ...band, value: 3 } })],
    ['a limit nobody knows', policySchema, limits({ bandLimt_s: band })],
    ['a step without words', wordsSchema, { ...words, steps: { ...words.steps, band: undefined } }],
    ['a title too long for the screen', wordsSchema, { ...words, steps: { ...words.steps, band: { title: 'x'.repeat(60), points: [] } } }],
    ['a prompt too long to say', promptsSchema, { ...prompts, prompts: { ...prompts.prompts, 'step.band': 'long '.repeat(20) } }],
    ['an exception without a prompt', promptsSchema, { ...prompts, prompts: { ...prompts.prompts, 'exception.faint': undefined } }],
  ])('%s', (_name, schema, data) => {
    const written: unknown = JSON.parse(JSON.stringify(data))
    expect(faults(schema, written).length).toBeGreaterThan(0)
  }) // prettier-ignore
})
