import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import { spokenFile, VOICES } from '../support/e2eMic.ts'

test.each(VOICES)('%s has said the first wording of every phrase', (voice) => {
  const first = Object.values(phrases.phrases).flatMap(([wording]) => wording ?? [])
  expect(first.filter((phrase) => !existsSync(spokenFile(voice, phrase)))).toEqual([])
})
