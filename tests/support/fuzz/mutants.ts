import { mutateCells } from './mutateCells.ts'
import { mutateText } from './mutateText.ts'
import { mutateValue } from './mutateValue.ts'
import { createSeeded, type Seeded } from './seeded.ts'

/** A file that was changed in one to four ways. */
export interface Mutant {
  readonly seed: number
  readonly bytes: Uint8Array
  /** Set where the change alone makes the file one that must not be taken. */
  readonly mustBeRefused?: string
}

/** Files that are good, of one kind. */
export interface Seeds {
  readonly format: 'csv' | 'json'
  readonly texts: readonly [string, ...string[]]
}

/** The mutants of some good files, in the same order for the same first seed. */
export function* mutants({ format, texts }: Seeds, count: number, first = 1): Generator<Mutant> {
  for (let seed = first; seed < first + count; seed += 1) {
    const random = createSeeded(seed)
    const text = random.one(texts)
    const doubled = random.below(25) === 0 ? twice(text, format, random) : undefined
    if (doubled) {
      yield { seed, bytes: bytesOf(doubled), mustBeRefused: 'a key or a column stands twice' }
      continue
    }
    let changed = text
    const times = 1 + random.below(random.below(4) === 0 ? 4 : 1)
    for (let i = 0; i < times; i += 1) changed = once(changed, format, random, random.one(texts))
    const bytes = bytesOf(changed)
    // Bytes, not letters: what comes out is often no UTF-8.
    if (random.below(12) === 0) {
      bytes[random.below(bytes.length)] = random.below(256)
    }
    yield { seed, bytes }
  }
}

function once(text: string, format: Seeds['format'], random: Seeded, other: string): string {
  if (random.below(2) === 0) return mutateText(text, random, other)
  if (format === 'csv') return mutateCells(text, random)
  try {
    return JSON.stringify(mutateValue(JSON.parse(text), random))
  } catch {
    return mutateText(text, random, other)
  }
}

/** A key of an object, or a column of a table, that stands there twice with different values. */
function twice(text: string, format: Seeds['format'], random: Seeded): string | undefined {
  if (format === 'csv') {
    const [heading = '', ...rows] = text.trimEnd().split('\n')
    const names = heading.split(',')
    const name = names[random.below(names.length)]
    return `${[`${heading},${name ?? ''}`, ...rows.map((row) => `${row},1`)].join('\n')}\n`
  }
  const keys = [...text.matchAll(/"[A-Za-z]\w*"(?=:)/g)]
  const key = keys[random.below(keys.length)]
  return key && `${text.slice(0, key.index)}${key[0]}:null,${text.slice(key.index)}`
}

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
