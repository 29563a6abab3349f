import { fillText } from '../basics/fillText.ts'
import { readText, type TextUse } from '../text/readText.ts'
import { textFaultSentence, type TextFaultTexts } from '../text/textFaultSentence.ts'
import type { Catalogue, TestRow, TubeRow } from './catalogue.ts'
import type { Fault } from './catalogueFaults.ts'
import type { CatalogueTexts } from './catalogueTexts.ts'

type Tables = Pick<Catalogue, 'tests' | 'tubes'>
interface Texts {
  readonly catalogue: CatalogueTexts
  readonly text: TextFaultTexts
}

/** A word in a table, with what may be held against it. */
interface Word {
  readonly row: number
  readonly column: string
  readonly value: string
  readonly use: TextUse
}

/**
 * Faults in what things are called: characters that nobody sees, and names under which two tests could be meant. It
 * is asked of a file before it is taken over; what is in use was asked then.
 */
export function nameFaults({ tests, tubes }: Tables, texts: Texts): Fault[] {
  const testWords = tests.flatMap(wordsOfTest)
  const tubeWords = tubes.flatMap(wordsOfTube)
  return [
    ...unreadable('tests', testWords, texts),
    ...unreadable('tubes', tubeWords, texts),
    ...shared('tests', testWords, texts.catalogue, new Set(['source', 'sharing'])),
    ...shared('tubes', tubeWords, texts.catalogue, new Set(['source', 'name', 'closure'])),
  ]
}

function wordsOfTest(test: TestRow, index: number): Word[] {
  const row = index + 1
  const word = (column: string, value: string | undefined, use: TextUse): Word[] =>
    value === undefined ? [] : [{ row, column, value, use }]
  return [
    ...word('code', test.code, 'identifier'),
    ...word('loinc', test.loinc, 'identifier'),
    ...word('localCode', test.localCode, 'identifier'),
    ...word('name', test.name, 'name'),
    ...test.aliases.flatMap((alias) => word('aliases', alias, 'name')),
    ...word('sharing', test.sharing, 'name'),
    ...word('source', test.source, 'text'),
  ]
}

function wordsOfTube(tube: TubeRow, index: number): Word[] {
  const row = index + 1
  return [
    { row, column: 'code', value: tube.code, use: 'identifier' },
    ...(tube.localCode === undefined
      ? []
      : [{ row, column: 'localCode', value: tube.localCode, use: 'identifier' } as const]),
    { row, column: 'name', value: tube.name, use: 'name' },
    { row, column: 'closure', value: tube.closure, use: 'name' },
    { row, column: 'source', value: tube.source, use: 'text' },
  ]
}

/** Longer than any source that stands in a table. */
const LONGEST: Readonly<Record<TextUse, number>> = { identifier: 100, name: 200, text: 500 }

function unreadable(
  table: Fault['table'],
  words: readonly Word[],
  { text: texts, catalogue: { faults: names } }: Texts,
): Fault[] {
  return words.flatMap(({ row, column, value, use }) => {
    const read = readText(value, use, LONGEST[use])
    if (read.ok && (value !== '' || column !== 'aliases')) return []
    if (read.ok) return [{ table, row, column, text: fillText(names.noName) }]
    return read.faults.map((fault) => ({
      table,
      row,
      column,
      text: textFaultSentence(fault, `"${column}"`, texts),
    }))
  })
}

/**
 * A code or a name that stands in two rows, in whatever letters, or as another name in one and as a name in the
 * other: whoever orders by it could mean either. Two tests may share another name, for it is a word to search by.
 */
function shared(
  table: Fault['table'],
  words: readonly Word[],
  { faults: texts }: CatalogueTexts,
  free: ReadonlySet<string>,
): Fault[] {
  const first = new Map<string, Word>()
  const faults: Fault[] = []
  const check = (word: Word): void => {
    const key = plain(word.value)
    const other = first.get(key)
    if (!other || other.row === word.row || key === '') return
    // One code in two rows, letter by letter, is told where the rows are read.
    if (word.column === 'code' && word.value === other.value) return
    const values = { value: word.value, column: other.column, row: other.row }
    faults.push({
      table,
      row: word.row,
      column: word.column,
      text: fillText(texts.nameShared, values),
    })
  }
  const held = words.filter(({ column }) => !free.has(column))
  for (const word of held.filter(({ column }) => column !== 'aliases')) {
    check(word)
    if (!first.has(plain(word.value))) first.set(plain(word.value), word)
  }
  held.filter(({ column }) => column === 'aliases').forEach(check)
  return faults
}

const plain = (value: string): string => value.normalize('NFKC').trim().toLowerCase()
