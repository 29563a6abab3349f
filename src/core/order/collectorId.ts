import type { Collector } from './order.ts'

/**
 * The id under which a person's attempts are counted, from how they are called: two people of one pair of initials have
 * two, and who takes over again has the same as before.
 */
export function collectorId({ name, initials }: Pick<Collector, 'name' | 'initials'>): string {
  return `${name} ${initials}`.trim().toLowerCase().replace(/\s+/g, '-')
}
