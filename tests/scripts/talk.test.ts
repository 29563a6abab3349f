import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { levelOf } from '../../src/adapters/speech/vosk/audioSource.ts'
import { SAFETY_COMMANDS } from '../../src/core/protocol/commandTable.ts'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import unspoken from '../fixtures/mic/unspoken.json' with { type: 'json' }
import { spokenFile } from '../support/e2eMic.ts'
import { TALK, TALK_FILE } from '../support/talk.ts'
import { readWav } from '../support/wav.ts'

const { samples, rate_Hz } = readWav(readFileSync(TALK_FILE))
const level_dBFS = (start_s: number, end_s: number): number =>
  levelOf(samples.subarray(start_s * rate_Hz, end_s * rate_Hz))
const lists: Readonly<Record<string, readonly string[]>> = phrases.phrases

test('no sentence of the talk is a phrase, and no safety phrase stands in it', () => {
  const all = Object.values(lists).flat()
  const atOnce = SAFETY_COMMANDS.flatMap((key) => lists[key] ?? [])
  const talk = ` ${TALK.map(({ words }) => words).join(' ')} `
  expect(TALK.filter(({ words }) => all.includes(words))).toEqual([])
  expect(atOnce.filter((phrase) => talk.includes(` ${phrase} `))).toEqual([])
})

test('the talk has words of most phrases in it, so that it can be taken for them', () => {
  const words = new Set(TALK.flatMap((line) => line.words.split(' ')))
  const near = Object.values(lists).filter((list) =>
    list.some((phrase) => phrase.split(' ').some((word) => words.has(word))),
  )
  expect(near.length).toBeGreaterThan(Object.keys(lists).length / 2)
})

test('two voices talk for most of a minute, with pauses as people make them', () => {
  expect(new Set(TALK.map(({ voice }) => voice)).size).toBe(2)
  const spoken_s = TALK.reduce((sum, { start_s, end_s }) => sum + end_s - start_s, 0)
  expect(spoken_s).toBeGreaterThan(40)
  expect(spoken_s).toBeLessThan(60)
  TALK.forEach(({ start_s, end_s, words }, i) => {
    const next_s = TALK[i + 1]?.start_s ?? samples.length / rate_Hz
    expect(next_s - end_s, words).toBeGreaterThan(0.39)
    expect(next_s - end_s, words).toBeLessThan(2.01)
    expect(level_dBFS(start_s, end_s), words).toBeGreaterThan(-30)
    expect(level_dBFS(end_s, next_s), words).toBeLessThan(-60)
  })
})

test('the talk is recorded as loud as the phrases, so that a gain says how much softer it is', () => {
  const waiting: readonly string[] = unspoken
  const first = Object.values(lists)
    .flatMap(([phrase]) => phrase ?? [])
    .filter((phrase) => !waiting.includes(phrase))
  const phrase_dBFS = mean(
    first.map((phrase) => levelOf(readWav(readFileSync(spokenFile('am_michael', phrase))).samples)),
  )
  const talk_dBFS = mean(TALK.map(({ start_s, end_s }) => level_dBFS(start_s, end_s)))
  expect(Math.abs(talk_dBFS - phrase_dBFS)).toBeLessThan(1)
})

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length
