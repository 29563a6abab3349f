import { readFileSync, writeFileSync } from 'node:fs'

const shapeOf = (address: string): string | undefined => /^http:\/\/[^/\s]+\/$/.exec(address)?.[0]

/**
 * The address under which the app was served first on this machine, so that its records are kept there. A small file
 * holds it; one that is missing or unreadable counts as none.
 */
function readKeptAt(file: string): string | undefined {
  try {
    return shapeOf(readFileSync(file, 'utf8').trim())
  } catch {
    return undefined
  }
}

/**
 * Where the records are kept, when that is not where the app is served now. Served for the first time, or moved on
 * purpose, it is here from now on.
 * @param here address with a slash at its end
 */
export function keptElsewhere(file: string, here: string, isMoved: boolean): string | undefined {
  const kept = isMoved ? undefined : readKeptAt(file)
  if (kept === here) return undefined
  if (kept !== undefined) return kept
  try {
    writeFileSync(file, `${here}\n`)
  } catch {
    // A folder that cannot be written only means that nothing can be told the next time.
  }
  return undefined
}
