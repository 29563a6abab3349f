/** What a log at the hub is of: one draw, or what one device recorded on one day outside of draws. */
export type LogOf =
  | { readonly kind: 'draw'; readonly drawId: string }
  | { readonly kind: 'day'; readonly day: string; readonly device: string }

/** The name of a draw's log at the hub: the same on whichever device it is written. */
export const drawLogName = (drawId: string): string => `draw-${drawId}`

/**
 * The name of a device's own log of a day.
 * @param day `2026-11-27`
 */
export const dayLogName = (day: string, device: string): string => `day-${day}-${device}`

/** What a name stands for, or `undefined` for one that is none of ours. */
export function readLogName(name: string): LogOf | undefined {
  const { drawId } = /^draw-(?<drawId>.+)$/s.exec(name)?.groups ?? {}
  if (drawId !== undefined) return { kind: 'draw', drawId }
  const { day, device } = /^day-(?<day>\d{4}-\d\d-\d\d)-(?<device>.+)$/s.exec(name)?.groups ?? {}
  return day === undefined || device === undefined ? undefined : { kind: 'day', day, device }
}
