import type { TestRow } from './catalogue.ts'

/** What still fits below a drawn tube. */
const SHORT_n = 11

/** A test in as few letters as the catalog has for it; its name where that is short or nothing is shorter. */
export function shortName({ name, aliases }: Pick<TestRow, 'name' | 'aliases'>): string {
  if (name.length <= SHORT_n) return name
  const [shortest = name] = aliases.filter(({ length }) => length > 1).toSorted(byLength)
  return shortest.length <= SHORT_n ? shortest : name
}

const byLength = (a: string, b: string): number => a.length - b.length
