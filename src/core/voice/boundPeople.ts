import type { OwnVoice } from './ownVoice.ts'

/** So many people's numbers are kept on one device. Our choice, no source: more than share a tablet in a month. */
export const MOST_PEOPLE = 40

/** Makes room: who has learned nothing here for the longest is forgotten, of one day the one named last. */
export function boundPeople(
  people: Readonly<Record<string, OwnVoice>>,
): Readonly<Record<string, OwnVoice>> {
  const all = Object.entries(people)
  if (all.length <= MOST_PEOPLE) return people
  const latest = [...all].sort(([, a], [, b]) => b.usedOn.localeCompare(a.usedOn))
  return Object.fromEntries(latest.slice(0, MOST_PEOPLE))
}
