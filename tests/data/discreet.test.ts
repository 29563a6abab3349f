import { describe, expect, it } from 'vitest'
import { ALARMING } from '../../src/app/site/words.ts'
import { isSevere } from '../../src/core/protocol/exceptionTable.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import prompts from '../../src/data/en/prompts.json' with { type: 'json' }

const texts: Readonly<Record<string, string | undefined>> = prompts.prompts
const alarming: readonly string[] = ALARMING
const twins = Object.keys(texts).filter((key) => key.startsWith('discreet.'))

/** What a review by the trade would not have said in front of a patient, and what names a person's trouble. */
const FRIGHTENS =
  /artery|pain|faint|bleed|stick|swell|hurt|wrong|patient|burn|refus|withdraw|broken|unlabeled|not clean|needle/i

describe('where patients hear the prompts', () => {
  it.each(ALARMING)(
    '%s has words of its own, with a short code and nothing that frightens',
    (key) => {
      const twin = texts[`discreet.${key}`]
      expect(twin).toMatch(/\bcode (one|two|three|four|five|six|seven|eight|nine|ten|eleven)\b/i)
      expect(twin).not.toMatch(FRIGHTENS)
      expect(twin).not.toBe(texts[key])
    },
  )

  it('no other prompt has such a twin', () => {
    expect(twins.sort()).toEqual(ALARMING.map((key) => `discreet.${key}`).sort())
  })

  it('whatever stops everything is among them, but for the band, which says only to take it off', () => {
    const severe = EXCEPTION_KINDS.filter((kind) => isSevere(kind) && kind !== 'bandOver')
    expect(severe.filter((kind) => !alarming.includes(`exception.${kind}`))).toEqual([])
    expect(texts['exception.bandOver']).toBe('Band off now.')
  })

  it('so is every question whose words would frighten', () => {
    const asked = Object.entries(texts).filter(
      ([key, text]) => key.startsWith('ask.') && FRIGHTENS.test(text?.replace('needle', '') ?? ''),
    )
    expect(
      asked
        .map(([key]) => key)
        .filter((key) => !alarming.includes(key) && key !== 'ask.refuseConsent'),
    ).toEqual([])
  })

  it('a question in code is one question and then "Yes or no?"', () => {
    const asks = twins.filter((key) => key.startsWith('discreet.ask.'))
    expect(asks.length).toBeGreaterThan(3)
    for (const key of asks) expect(texts[key]).toMatch(/^[^.?]+\? Yes or no\?$/)
  })
})
