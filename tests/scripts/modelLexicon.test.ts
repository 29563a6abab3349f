import { readFileSync } from 'node:fs'
import { dictionary } from 'cmu-pronouncing-dictionary'
import { describe, expect, it } from 'vitest'
import { readLexicon } from '../../src/core/voice/lexicon.ts'

const read = (path: string): string => readFileSync(path, 'utf8')
const lexicon = readLexicon(read('models/training/lexicon.en.txt'))
const own = read('models/training/data/own_pronunciations.txt').trim().split('\n')
const said = (ways: readonly (readonly string[])[]): string =>
  ways.map((way) => way.join(' ')).sort().join() // prettier-ignore

/** Source: CMUdict, as the package `cmu-pronouncing-dictionary` has it; without stress and its remarks. */
function inDictionary(word: string): string {
  const entries = [word, ...[1, 2, 3, 4].map((n) => `${word}(${n})`)]
  const ways = entries.flatMap((entry) => dictionary[entry] ?? [])
  return [...new Set(ways.map((way) => way.replace(/ #.*/, '').replace(/\d/g, '')))].sort().join()
}

describe('the words that the model was built with', () => {
  it('are said as CMUdict says, but for those that it lacks or says otherwise in another edition', () => {
    const others = [...lexicon].filter(([word, ways]) => said(ways) !== inDictionary(word))
    const names = new Set(own.map((line) => line.split(' ')[0]))
    expect(others.map(([word]) => word).filter((word) => !names.has(word))).toEqual(['realism'])
  })

  it('are those that phrases are checked against', () => {
    const checked = readLexicon(read('public/lexicon.en.txt'))
    expect([...checked.keys()].sort()).toEqual([...lexicon.keys()].sort())
    expect([...checked].filter(([word, ways]) => said(ways) !== said(lexicon.get(word) ?? []))).toEqual([]) // prettier-ignore
  })

  it('hold the words of the trade that 0.2 added', () => {
    expect(['lancet', 'numb', 'plaster', 'tingling', 'unwell'].filter((w) => !lexicon.has(w))).toEqual([]) // prettier-ignore
  })
})
