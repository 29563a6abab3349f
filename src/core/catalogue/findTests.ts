import type { Orderable } from './series.ts'

/**
 * Tests that fit what was typed, best first: code or name equal, then at the beginning, then at the beginning of a
 * word, then anywhere. Every typed word must fit somewhere in code, name, aliases or local code.
 * Nothing typed gives every test, in the catalogue's own order.
 */
export function findTests<T extends Orderable>(
  catalogue: { readonly tests: readonly T[] },
  typed: string,
  most = 12,
): readonly T[] {
  const words = plain(typed).split(' ').filter(Boolean)
  if (words.length === 0) return catalogue.tests
  const whole = words.join(' ')
  return catalogue.tests
    .flatMap((test) => {
      const texts = [test.code, test.name, ...test.aliases, test.localCode ?? ''].map(plain)
      if (!words.every((word) => texts.some((text) => text.includes(word)))) return []
      return [{ test, rank: Math.min(...texts.map((text) => rankOf(text, whole))) }]
    })
    .sort((a, b) => a.rank - b.rank || a.test.name.localeCompare(b.test.name))
    .slice(0, most)
    .map(({ test }) => test)
}

function rankOf(text: string, typed: string): number {
  if (text === typed) return 0
  if (text.startsWith(typed)) return 1
  if (` ${text}`.includes(` ${typed}`)) return 2
  return text.includes(typed) ? 3 : 4
}

/** Lower case, without accents or punctuation, single spaces. */
function plain(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^a-z0-9 ]/g, (c) => (c === '-' || c === '/' || c === ',' ? ' ' : ''))
    .replace(/ +/g, ' ')
    .trim()
}
