/** Reads `1:05`, `12:00` or `1:02:05` as ms; `undefined` when it is no such time. */
export function scenarioTime_ms(text: string): number | undefined {
  const match = /^(?:(\d+):)?(\d{1,2}):([0-5]\d)$/.exec(text)
  if (!match) return undefined
  const [, hours, minutes, seconds] = match
  if (hours !== undefined && Number(minutes) > 59) return undefined
  return (Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(seconds)) * 1000
}
