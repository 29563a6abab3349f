/** `<device prefix><yyyymmdd><counter>`, with or without hyphens between the parts; eight digits where drawn by lot. */
const DRAW_ID = /^(?<prefix>.+?)-?(?<date>\d{8})-?(?<counter>[0-9A-Za-z]{4}|\d{8})$/

/**
 * The number on a tube's label, from the draw's and the tube's own ids: `D7-20261125-0003` and `t2` give
 * `D7261125000302`. Unique across devices, because the part after the device's prefix always has
 * twelve characters, or sixteen for a number drawn by lot, and no prefix has more than four.
 * It has no hyphens, for Code 128 packs digits in pairs: with them the bars would not fit a 2 inch label at 0.25 mm.
 * @param redrawn the last part of the number, where the tube was drawn in the place of a lost one.
 */
export function specimenNumber(drawId: string, tubeId: string, redrawn?: number): string {
  const own = redrawn === undefined ? tubeId.replace(/^t(?=\d)/, '') : String(redrawn)
  const tube = own.padStart(2, '0')
  const { prefix, date, counter } = DRAW_ID.exec(drawId)?.groups ?? {}
  if (!prefix || !date || !counter) return `${drawId}-${tube}`
  return `${prefix}${date.slice(2)}${counter}${tube}`
}

/** Redrawn tubes are numbered from here on, beyond every tube of a plan. */
const REDRAWN_FROM = 51

/** The last part of the number of the next redrawn tube, where so many were given one before. */
export const redrawnNumber = (given: number): number => REDRAWN_FROM + given

/** True when a scanned or typed text is that number; a scanner's line end and the case of letters do not matter. */
export function isSpecimenNumber(scanned: string, expected: string): boolean {
  return scanned.trim().toUpperCase() === expected.toUpperCase()
}

/**
 * True for the form of our own numbers, whoever's tube it is: prefix, day, counter and tube, without hyphens or with.
 */
export function looksLikeSpecimenNumber(text: string): boolean {
  return /^[A-Z0-9]{2,4}(?:-?\d{8}-\d{4}(?:\d{4})?-\d{2,}|\d{6}(?:\d{4}){1,2}\d{2})$/i.test(text)
}
