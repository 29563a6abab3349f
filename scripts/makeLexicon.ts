/**
 * Writes public/lexicon.en.txt: every word that the model knows, with its pronunciations from CMUdict without stress.
 * `tsx scripts/makeLexicon.ts [MODEL.tar.gz]`. The words come from `graph/words.txt` in the archive.
 */
import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { dictionary } from 'cmu-pronouncing-dictionary'

const archive = process.argv[2] ?? 'models/stillhand-en-0.1.tar.gz'
const words = execFileSync('tar', ['-xzOf', archive, '--wildcards', '*/graph/words.txt'], {
  encoding: 'utf8',
  maxBuffer: 64 * 1024 * 1024,
})
  .split('\n')
  .map((line) => line.split(' ')[0] ?? '')
  .filter((word) => /^[a-z']/.test(word))
  .sort()

/** Words of the trade that CMUdict lacks; pronunciations are our own. */
const OWN: Readonly<Record<string, string>> = {
  aliquot: 'AE L IH K W AA T',
  antecubital: 'AE N T IY K Y UW B IH T AH L',
  basilic: 'B AH S IH L IH K',
  cephalic: 'S AH F AE L IH K',
  chlorhexidine: 'K L AO R HH EH K S IH D IY N',
  citrate: 'S IH T R EY T',
  cubital: 'K Y UW B IH T AH L',
  haematoma: 'HH IY M AH T OW M AH',
  hematoma: 'HH IY M AH T OW M AH',
  hemolyzed: 'HH IY M AH L AY Z D',
  inversions: 'IH N V ER ZH AH N Z',
  inverting: 'IH N V ER T IH NG',
  phlebotomy: 'F L AH B AA T AH M IY',
  venipuncture: 'V EH N IH P AH NG K CH ER',
}

const ways = (word: string): readonly string[] =>
  [word, ...[1, 2, 3].map((n) => `${word}(${n})`)]
    .flatMap((entry) => dictionary[entry] ?? OWN[entry] ?? [])
    .map((phones) => phones.replace(/\d/g, ''))
const lines = words.map((word) => [word, ...new Set(ways(word))].join('\t'))
const head = `# Words of ${basename(archive)} with their pronunciations in CMUdict (BSD-style license), stress left out; a few are our own.`
writeFileSync('public/lexicon.en.txt', `${[head, ...lines].join('\n')}\n`)
console.log(
  `${words.length} words, ${lines.filter((line) => !line.includes('\t')).length} without sound`,
)
