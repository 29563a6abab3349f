import { shippedSite } from '../../support/site.ts'

/** Units and names that are written like this in the trade and in standards. */
const TRADE = new Set(['mL', 'kPa', 'mmHg', 'pH', 'pCO', 'pO', 'proBNP', 'aPTT', 'hCG', 'dsDNA'])

const { tests, tubes } = shippedSite.catalogue

/** Words that stand in what a test or tube is called: there they are no code but a name. */
const named = new Set(
  [...tests.flatMap(({ name, aliases }) => [name, ...aliases]), ...tubes.map(({ name }) => name)]
    .flatMap((name) => name.split(/[^\p{L}\p{N}]+/u))
    .flatMap((word) => [word, word.toLowerCase()]),
)

/** Codes of the catalog that a person is never to read where the name is known. */
const codes = new Set(
  [...tests, ...tubes]
    .map(({ code }) => code)
    .filter(
      (code) => /[a-z]/.test(code) && !named.has(code) && (code.length > 4 || /\d/.test(code)),
    ),
)

/** Whatever in a text is written for a machine. */
export function rawCodes(text: string): readonly string[] {
  const words = text.match(/[\p{L}\p{N}_]+/gu) ?? []
  return [
    ...words.filter((word) => /^\p{Ll}+\p{Lu}/u.test(word) && !TRADE.has(word) && !named.has(word)),
    ...words.filter((word) => codes.has(word)),
    ...words.filter(
      (word) => /^t\d{1,2}$/.test(word) || /^(undefined|NaN|null|Infinity)$/.test(word),
    ),
    ...(text.match(/\[object \w+\]|\{\w+\}|<[a-z]+>/g) ?? []),
    ...(text.match(/\d{4}-\d{2}-\d{2}(T[\d:.]+\S*)?/g) ?? []),
    ...(text.match(/\d:\d{2} ?[AP]M\b|\d{1,2}\/\d{1,2}\/\d{4}/g) ?? []),
  ]
}
