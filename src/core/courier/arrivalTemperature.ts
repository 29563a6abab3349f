/** Dry ice is -78 °C, liquid nitrogen -196 °C; no box of specimens is warmer than this. */
const LEAST_C = -200
const MOST_C = 60

/**
 * What somebody read off the thermometer in the box, degrees Celsius, with a point or a comma; `undefined` for anything
 * else. What it may be is the laboratory's to say: nothing is judged here.
 */
export function arrivalTemperature(typed: string): number | undefined {
  const text = typed.trim().replace(',', '.').replace('\u2212', '-')
  if (!/^-?\d{1,3}(\.\d)?$/.test(text)) return undefined
  const degrees = Number(text)
  return degrees >= LEAST_C && degrees <= MOST_C ? degrees : undefined
}
