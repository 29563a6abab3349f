/**
 * A rotor of n like places turns in balance with k like tubes exactly when both k and n - k are sums of prime divisors
 * of n (G. Sivek, On vanishing sums of distinct roots of unity, Integers 10 (2010), A31, 365-368): the places are the
 * n-th roots of unity, and the tubes balance when theirs add up to nothing.
 */
export function canBalance(places: number, tubes: number): boolean {
  const primes = primeDivisors(places)
  return isSumOf(tubes, primes) && isSumOf(places - tubes, primes)
}

/** Where the tubes of one kind stand, the blanks last. */
export interface BalancedKind {
  /** Places from 0, clockwise. */
  readonly tubes: readonly number[]
  readonly blanks: readonly number[]
}

/** More tries than any rotor of a bench needs; a search beyond counts as not found. */
const MOST_TRIES = 20_000

/**
 * Places for tubes of several kinds, with as few blanks as are found. Tubes of one kind are alike in size and filling;
 * each regular polygon of places holds one kind alone, so that like always stands against like.
 * @param counts how many of each kind
 * @returns `undefined` where they do not all fit
 */
export function balance(
  places: number,
  counts: readonly number[],
): readonly BalancedKind[] | undefined {
  const primes = primeDivisors(places)
  const all = counts.reduce((sum, count) => sum + count, 0)
  for (let blanks = 0; all + blanks <= places; blanks++) {
    if (!canBalance(places, all + blanks)) continue
    for (const more of sharesOf(blanks, counts, primes)) {
      const sizes = counts.map((count, kind) => count + (more[kind] ?? 0))
      const found = sizes.every((size) => isSumOf(size, primes)) && laid(places, primes, sizes)
      if (found) {
        return found.map((ofKind, kind) => ({
          tubes: ofKind.slice(0, counts[kind]),
          blanks: ofKind.slice(counts[kind]),
        }))
      }
    }
  }
  return undefined
}

/** More kinds than this get each as few blanks as make a whole of it, and no other ways are tried. */
const FEW_KINDS = 3

function sharesOf(
  blanks: number,
  counts: readonly number[],
  primes: readonly number[],
): readonly (readonly number[])[] {
  if (counts.length <= FEW_KINDS) return shares(blanks, counts.length)
  const fewest = counts.map((count) => {
    let more = 0
    while (!isSumOf(count + more, primes)) more++
    return more
  })
  return fewest.reduce((sum, more) => sum + more, 0) === blanks ? [fewest] : []
}

/** Every way to give so many blanks to so many kinds. */
function shares(blanks: number, kinds: number): readonly (readonly number[])[] {
  if (kinds === 0) return blanks === 0 ? [[]] : []
  if (kinds === 1) return [[blanks]]
  return Array.from({ length: blanks + 1 }, (_, first) => first).flatMap((first) =>
    shares(blanks - first, kinds - 1).map((rest) => [first, ...rest]),
  )
}

/** Regular polygons of free places, none touching another, so that each kind has as many places as asked for. */
function laid(
  places: number,
  primes: readonly number[],
  sizes: readonly number[],
): readonly (readonly number[])[] | undefined {
  const taken = new Set<number>()
  const found: number[][] = sizes.map(() => [])
  // Polygons of two primes cross exactly where their places leave the same rest by this: such a class holds one prime.
  const classes = places / primes.reduce((product, prime) => product * prime, 1)
  const starts = new Map(primes.map((prime) => [prime, startsOf(places / prime, classes)]))
  let tries = 0

  function ofKind(kind: number): boolean {
    const size = sizes[kind]
    if (size === undefined) return true
    return sumsOf(size, primes).some((polygons) => place(kind, polygons, 0, 0))
  }

  function place(kind: number, polygons: readonly number[], nth: number, from: number): boolean {
    const prime = polygons[nth]
    if (prime === undefined) return ofKind(kind + 1)
    const ordered = starts.get(prime) ?? []
    for (let index = from; index < ordered.length; index++) {
      if (++tries > MOST_TRIES) return false
      const start = ordered[index] ?? 0
      const polygon = Array.from({ length: prime }, (_, i) => start + (i * places) / prime)
      if (polygon.some((each) => taken.has(each))) continue
      polygon.forEach((each) => taken.add(each))
      found[kind]?.push(...polygon)
      const isSame = polygons[nth + 1] === prime
      if (place(kind, polygons, nth + 1, isSame ? index + 1 : 0)) return true
      polygon.forEach((each) => taken.delete(each))
      found[kind]?.splice(-prime)
    }
    return false
  }
  return ofKind(0) ? found : undefined
}

/** Where a polygon may begin, class by class. */
function startsOf(step: number, classes: number): readonly number[] {
  const all = Array.from({ length: step }, (_, start) => start)
  return all.sort((a, b) => (a % classes) - (b % classes) || a - b)
}

/** Every way to write a number as a sum of primes, each falling; those of one prime alone and of pairs first. */
function sumsOf(sum: number, primes: readonly number[]): readonly (readonly number[])[] {
  const falling = [...primes].sort((a, b) => b - a)
  const from = (left: number, nth: number): readonly (readonly number[])[] => {
    const prime = falling[nth]
    if (prime === undefined) return left === 0 ? [[]] : []
    const most = Math.floor(left / prime)
    return Array.from({ length: most + 1 }, (_, count) => count).flatMap((count) =>
      from(left - count * prime, nth + 1).map((rest) => [
        ...Array.from({ length: count }, () => prime),
        ...rest,
      ]),
    )
  }
  const kinds = (sums: readonly number[]): number => new Set(sums).size
  return [...from(sum, 0)].sort((a, b) => kinds(a) - kinds(b) || b.length - a.length)
}

function primeDivisors(n: number): readonly number[] {
  const found: number[] = []
  let rest = n
  for (let divisor = 2; divisor <= rest; divisor++) {
    if (rest % divisor !== 0) continue
    found.push(divisor)
    while (rest % divisor === 0) rest /= divisor
  }
  return found
}

function isSumOf(sum: number, parts: readonly number[]): boolean {
  const can = [true]
  for (let each = 1; each <= sum; each++)
    can[each] = parts.some((part) => can[each - part] === true)
  return sum >= 0 && can[sum] === true
}
