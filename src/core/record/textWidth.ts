/**
 * Widths of Helvetica Bold in thousandths of the type size (Adobe font metrics, from memory); Arial Bold and Liberation
 * Sans Bold have the same. Bold is the wider cut, so what fits in it fits in the regular one.
 */
const WIDTHS: readonly (readonly [characters: string, width: number])[] = [
  [' ,./:;|ijlI\\', 278],
  ["'()-ft![]", 333],
  ['"r*°', 500],
  ['aceksvxyz0123456789#$?_', 560],
  ['bdghnopquFLTZ+<=>~', 611],
  ['EPSVXY', 667],
  ['ABCDHKNRU&', 722],
  ['GOQw', 778],
  ['Mm%', 889],
  ['W@…', 1000],
]
const BY_LETTER = new Map(
  WIDTHS.flatMap(([characters, width]) =>
    [...characters].map((letter) => [letter, width] as const),
  ),
)
/** What the table does not have is taken as wide as it is high: letters of other scripts are. */
const WIDEST = 1000

/** The most room that a line of print takes, in multiples of the type size. Marks on a letter take no room. */
export function textWidth_em(text: string): number {
  const letters = [...text.normalize('NFD').replaceAll(/\p{M}/gu, '')]
  return letters.reduce((sum, letter) => sum + (BY_LETTER.get(letter) ?? WIDEST), 0) / 1000
}
