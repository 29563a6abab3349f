/** `25 Nov 2026, 23:28`: a moment as every screen writes it, in the time of this device. */
export function dayAndTime(at_ms: number, language: string): string {
  const parts = new Intl.DateTimeFormat(language, {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(at_ms)
  const get = (type: string): string => parts.find((part) => part.type === type)?.value ?? ''
  return `${get('day')} ${get('month')} ${get('year')}, ${get('hour')}:${get('minute')}`
}
