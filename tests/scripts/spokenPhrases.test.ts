import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import unspoken from '../fixtures/mic/unspoken.json' with { type: 'json' }
import { spokenFile, VOICES } from '../support/e2eMic.ts'

const first = Object.values(phrases.phrases).flatMap(([wording]) => wording ?? [])
const waiting: readonly string[] = unspoken

test.each(VOICES)('%s has said the first wording of every phrase', (voice) => {
  const missing = first.filter((phrase) => !existsSync(spokenFile(voice, phrase)))
  expect(missing, 'What waits to be said stands in unspoken.json, and nothing else.').toEqual(
    waiting,
  )
})
