/** Walks over the blocks of a tar archive as they come and says the first thing that is wrong. */
interface TarWalk {
  take(chunk: Uint8Array): string | undefined
  /** What is wrong when nothing more comes. */
  end(): string | undefined
}

const BLOCK_bytes = 512
const MOST_ENTRIES = 2000
/** Larger than any one file of a model that a browser can hold. */
const MOST_FILE_bytes = 1_000_000_000

/**
 * A walk over an archive of plain files and folders. Anything else (links, devices, extended headers), a name that
 * leads out of the archive, a size that cannot be, and an end before its time are faults.
 * Source: POSIX.1-2017, pax, "ustar Interchange Format".
 */
export function createTarWalk(): TarWalk {
  const header = new Uint8Array(BLOCK_bytes)
  let filled = 0
  /** Bytes of contents, with what fills up their last block, that are still to come. */
  let left = 0
  let entries = 0
  let ended = false

  function take(chunk: Uint8Array): string | undefined {
    let at = 0
    while (at < chunk.length && !ended) {
      if (left > 0) {
        const skipped = Math.min(left, chunk.length - at)
        left -= skipped
        at += skipped
        continue
      }
      const part = chunk.subarray(at, at + BLOCK_bytes - filled)
      header.set(part, filled)
      filled += part.length
      at += part.length
      if (filled < BLOCK_bytes) continue
      filled = 0
      // A block of zeros ends an archive; what fills up behind it is not read by anybody.
      ended = header.every((byte) => byte === 0)
      if (ended) continue
      const fault = headerFault(header)
      if (fault) return fault
      entries += 1
      if (entries > MOST_ENTRIES) return 'more files than a model has'
      left = Math.ceil(octal(header.subarray(124, 136)) / BLOCK_bytes) * BLOCK_bytes
    }
    return undefined
  }

  const end = (): string | undefined => {
    if (entries === 0) return 'no tar archive'
    return ended ? undefined : 'breaks off'
  }

  return { take, end }
}

function headerFault(header: Uint8Array): string | undefined {
  const sum = header.reduce((total, byte, at) => total + (at >= 148 && at < 156 ? 0x20 : byte), 0)
  if (octal(header.subarray(148, 156)) !== sum) return 'no tar archive'
  const type = String.fromCharCode(header[156] ?? 0)
  const name = [header.subarray(345, 500), header.subarray(0, 100)]
    .map(textOf)
    .filter(Boolean)
    .join('/')
  if (!/^[\0 05]$/.test(type)) return `holds more than plain files: ${JSON.stringify(name)}`
  const parts = name.split('/')
  const leadsOut = name === '' || name.startsWith('/') || parts.includes('..')
  if (leadsOut || !/^[\w./ +-]+$/.test(name)) return `holds a bad name: ${JSON.stringify(name)}`
  const size = octal(header.subarray(124, 136))
  if (!(size <= MOST_FILE_bytes)) return `a file larger than any of a model: ${name}`
  return type === '5' && size > 0 ? `a folder with contents: ${name}` : undefined
}

const textOf = (bytes: Uint8Array): string => {
  const end = bytes.indexOf(0)
  return new TextDecoder('latin1').decode(end < 0 ? bytes : bytes.subarray(0, end))
}

/** A number in octal digits; `NaN` for anything else, such as the binary form for sizes over 8 GB. */
const octal = (bytes: Uint8Array): number => {
  const digits = textOf(bytes).trim()
  return /^[0-7]+$/.test(digits) ? Number.parseInt(digits, 8) : NaN
}
