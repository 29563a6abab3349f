/**
 * Writes public/lexicon.en.txt for the phrase checker: every word of the model, with its ways of being said.
 * They are those that the model's graph was built from (`models/training/lexicon.en.txt`), so a phrase is checked
 * against what is heard. The words are compared with `graph/words.txt` in the archive.
 * `tsx scripts/makeLexicon.ts [MODEL.tar.gz]`.
 */
import { execFileSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { SHIPPED_MODEL } from '../src/app/site/speechModels.ts'

const archive = process.argv[2] ?? `models/${SHIPPED_MODEL}`
const known = execFileSync('tar', ['-xzOf', archive, '--wildcards', '*/graph/words.txt'], {
  encoding: 'utf8',
  maxBuffer: 64 * 1024 * 1024,
})
  .split('\n')
  .map((line) => line.split(' ')[0] ?? '')
  .filter((word) => /^[a-z']/.test(word))
  .sort()
const said = readFileSync('models/training/lexicon.en.txt', 'utf8')
  .split('\n')
  .filter((line) => line && !line.startsWith('#'))
  .map((line) => {
    const [word = '', ...ways] = line.split('\t')
    return [word, ...ways.sort()].join('\t')
  })
  .sort()
const wordOf = (line: string): string => line.split('\t')[0] ?? ''

if (said.map(wordOf).sort().join() !== known.join()) {
  throw new Error(`The words of ${archive} are not those of models/training/lexicon.en.txt.`)
}
const head = `# Words of ${basename(archive)} with their pronunciations in CMUdict (BSD-style license), stress left out; a few are our own.`
writeFileSync('public/lexicon.en.txt', `${[head, ...said].join('\n')}\n`)
console.log(`${said.length} words`)
