import { inflateSync } from 'node:zlib'

/** Two neighboring colors of one ground, as the painter rounds them, may differ so much. */
const SAME = 3

export interface Pixels {
  readonly width: number
  readonly height: number
  /** Rows from the top, four bytes a pixel. */
  readonly data: Uint8Array
}

/** Share of rows of pixels in which nothing is painted: every pixel of the row has one color. */
export function emptyShare({ width, height, data }: Pixels): number {
  let empty = 0
  for (let y = 0; y < height; y++) if (isEven(data, y * width * 4, width)) empty += 1
  return empty / height
}

function isEven(data: Uint8Array, from: number, width: number): boolean {
  for (let at = from; at < from + width * 4; at++) {
    const first = data[from + (at % 4)] ?? 0
    if (Math.abs((data[at] ?? 0) - first) > SAME) return false
  }
  return true
}

/**
 * The pixels of a PNG as a browser writes it: eight bits a channel, red, green, blue and perhaps alpha, not interlaced
 * (W3C Recommendation "Portable Network Graphics", third edition, sections 7 and 9).
 * @throws Error for any other
 */
export function readPng(file: Buffer): Pixels {
  const [width, height] = [file.readUInt32BE(16), file.readUInt32BE(20)]
  const channels = file[25] === 6 ? 4 : file[25] === 2 ? 3 : 0
  if (file[24] !== 8 || channels === 0 || file[28] !== 0) throw new Error('Another kind of PNG.')
  const parts: Buffer[] = []
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at)
    if (file.toString('latin1', at + 4, at + 8) === 'IDAT')
      parts.push(file.subarray(at + 8, at + 8 + length))
    at += length + 12
  }
  return {
    width,
    height,
    data: unfiltered(inflateSync(Buffer.concat(parts)), width, height, channels),
  }
}

function unfiltered(raw: Buffer, width: number, height: number, channels: number): Uint8Array {
  const stride = width * channels
  const rows = new Uint8Array(stride * height)
  const data = new Uint8Array(width * height * 4).fill(255)
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)] ?? 0
    const [from, to] = [y * (stride + 1) + 1, y * stride]
    for (let i = 0; i < stride; i++) {
      const left = i >= channels ? (rows[to + i - channels] ?? 0) : 0
      const up = y > 0 ? (rows[to + i - stride] ?? 0) : 0
      const corner = y > 0 && i >= channels ? (rows[to + i - stride - channels] ?? 0) : 0
      rows[to + i] = (raw[from + i] ?? 0) + predicted(filter, left, up, corner)
    }
    for (let x = 0; x < width; x++) {
      for (let c = 0; c < channels; c++)
        data[(y * width + x) * 4 + c] = rows[to + x * channels + c] ?? 0
    }
  }
  return data
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left
  if (filter === 2) return up
  if (filter === 3) return (left + up) >> 1
  if (filter !== 4) return 0
  const guess = left + up - corner
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)]
  return a <= b && a <= c ? left : b <= c ? up : corner
}
