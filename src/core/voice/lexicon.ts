/**
 * Words that a model knows, each with its ways of being said (ARPAbet without stress); none where only the word is
 * known.
 */
export type Lexicon = ReadonlyMap<string, readonly (readonly string[])[]>

/**
 * Reads a lexicon: one word a line, a tab, its phones, further ways after more tabs (`read<tab>R IY D<tab>R EH D`).
 * Empty lines and lines that begin with `#` are left out.
 */
export function readLexicon(text: string): Lexicon {
  const words = new Map<string, readonly (readonly string[])[]>()
  for (const line of text.split('\n')) {
    const [word, ...ways] = line.trimEnd().split('\t')
    if (!word || word.startsWith('#')) continue
    words.set(
      word,
      ways.filter(Boolean).map((way) => way.split(' ')),
    )
  }
  return words
}

/** At most so many ways of saying a phrase are looked at. */
const MOST_WAYS = 8

/** Ways of saying a phrase; none when a word of it has no known pronunciation. */
export function waysToSay(phrase: string, lexicon: Lexicon): readonly (readonly string[])[] {
  return phrase
    .split(' ')
    .reduce<readonly (readonly string[])[]>(
      (ways, word) =>
        ways
          .flatMap((way) => (lexicon.get(word) ?? []).map((phones) => [...way, ...phones]))
          .slice(0, MOST_WAYS),
      [[]],
    )
}
