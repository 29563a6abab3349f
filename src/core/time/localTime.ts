import { isDay } from './format.ts'

/**
 * A local time as a form has it, `2026-11-25T18:00`, in ms since 1970 UTC; `undefined` for anything else, since a date
 * is read out of nearly anything.
 * @param offset_min minutes east of UTC
 */
export function localTime_ms(text: string, offset_min: number): number | undefined {
  if (!/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/.test(text)) return undefined
  if (!isDay(text.slice(0, 10))) return undefined
  return Date.parse(`${text}:00Z`) - offset_min * 60_000
}
