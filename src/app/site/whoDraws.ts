import { readText } from '../../core/text/readText.ts'
import { collectorId } from '../../core/order/collectorId.ts'
import type { Settings } from './settings.ts'

/** Who draws at this device, as the note and the labels say it. */
export interface Collector {
  readonly name: string
  readonly initials: string
  readonly siteName: string
}

/** `old`: somebody said so too long ago to be taken for the person of this shift. */
export type WhoDraws = 'unsaid' | 'old' | 'said'

/** No longer than one shift: common practice, no source. */
const SHIFT_ms = 12 * 3_600_000

/** Whether it is known who draws now; a clock that was set counts as long ago. */
export function whoDraws(settings: Settings, now_ms: number): WhoDraws {
  const { collectorName, collectorInitials, collectorSaid_ms } = settings
  if (collectorName.trim() === '' || collectorInitials.trim() === '') return 'unsaid'
  return Math.abs(now_ms - collectorSaid_ms) <= SHIFT_ms ? 'said' : 'old'
}

/** The id under which the person counts whom the settings name; `undefined` while they name nobody. */
export function collectorIdOf(settings: Settings): string | undefined {
  const { collectorName: name, collectorInitials: initials } = settings
  return whoDraws(settings, settings.collectorSaid_ms) === 'unsaid'
    ? undefined
    : collectorId({ name, initials })
}

/** The settings that keep who draws; `undefined` while name or initials are missing or cannot be read. */
export function keepCollector(who: Collector, now_ms: number): Partial<Settings> | undefined {
  const name = readText(who.name, 'name')
  const initials = readText(who.initials, 'name')
  const site = readText(who.siteName, 'name')
  if (!name.ok || !initials.ok || !site.ok || name.value === '' || initials.value === '') {
    return undefined
  }
  return {
    collectorName: name.value,
    collectorInitials: initials.value,
    siteName: site.value,
    collectorSaid_ms: now_ms,
  }
}

/** `Ada van Lund` gives `AVL`, to begin with. */
export const initialsOf = (name: string): string =>
  name
    .split(/[\s-]+/)
    .map((part) => part.match(/\p{L}/u)?.[0] ?? '')
    .join('')
    .toLocaleUpperCase()
    .slice(0, 4)
