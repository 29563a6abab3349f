/** True when a line says the same words as the other, or words that stand in it: it need not stand a second time. */
export function isRestated(line: string, other: string): boolean {
  return bare(other).includes(bare(line))
}

const bare = (text: string): string =>
  ` ${text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()} `
