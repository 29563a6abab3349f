import { DAYS, NUMBERS, UNITS, UNSEEN, WORDS } from './bits.ts'
import type { Seeded } from './seeded.ts'

/** A change of a text. `other` is a file of the same kind to splice with. */
type Mutator = (text: string, random: Seeded, other: string) => string

const at = (text: string, random: Seeded): number => random.below(text.length + 1)
const insert = (text: string, place: number, piece: string): string =>
  text.slice(0, place) + piece + text.slice(place)

/** Replaces one of the places where a pattern stands. */
function replaceOne(text: string, pattern: RegExp, random: Seeded, piece: string): string {
  const found = [...text.matchAll(pattern)]
  const match = found[random.below(found.length)]
  if (!match) return insert(text, at(text, random), piece)
  return text.slice(0, match.index) + piece + text.slice(match.index + match[0].length)
}

const cut: Mutator = (text, random) => text.slice(0, at(text, random))
const take: Mutator = (text, random) => {
  const from = at(text, random)
  return text.slice(0, from) + text.slice(from + 1 + random.below(40))
}
const repeat: Mutator = (text, random) => {
  const from = at(text, random)
  const piece = text.slice(from, from + 1 + random.below(60))
  return insert(text, from, piece.repeat(1 + random.below(4)))
}
const flip: Mutator = (text, random) => {
  const place = random.below(Math.max(1, text.length))
  const code = text.charCodeAt(place) ^ (1 << random.below(7))
  return text.slice(0, place) + String.fromCharCode(code) + text.slice(place + 1)
}
const splice: Mutator = (text, random, other) =>
  text.slice(0, at(text, random)) + other.slice(at(other, random))
const repeatLine: Mutator = (text, random) => {
  const lines = text.split('\n')
  const line = lines[random.below(lines.length)] ?? ''
  lines.splice(random.below(lines.length), 0, line)
  return lines.join('\n')
}
const unit: Mutator = (text, random) =>
  replaceOne(text, /_(?:s|ms|min|mL|kg|pct|mm|h|n|days)\b/g, random, random.one(UNITS))

const MUTATORS: readonly [Mutator, ...(readonly Mutator[])] = [
  cut,
  take,
  repeat,
  flip,
  splice,
  repeatLine,
  unit,
  (text, random) => replaceOne(text, /-?\d+(?:\.\d+)?/g, random, random.one(NUMBERS)),
  (text, random) => replaceOne(text, /-?\d+(?:\.\d+)?/g, random, random.one(NUMBERS)),
  (text, random) => replaceOne(text, /\d{4}-\d\d-\d\d/g, random, random.one(DAYS)),
  (text, random) => insert(text, at(text, random), random.one(UNSEEN)),
  (text, random) => insert(text, at(text, random), random.one(WORDS)),
  (text, random) => replaceOne(text, /[A-Za-z]\w+/g, random, random.one(WORDS)),
]

/** A text changed once in some way. */
export const mutateText: Mutator = (text, random, other) =>
  random.one(MUTATORS)(text, random, other)
