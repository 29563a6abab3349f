import { isRecord } from '../basics/isRecord.ts'
import type { Salvaged } from '../basics/result.ts'
import { parseJson } from '../text/parseJson.ts'
import { MOST_COUNTED, MOST_LEVELS, type OwnVoice, type WordingCounts } from './ownVoice.ts'
import { REST_DRAWS } from './rankWordings.ts'
import { LEVEL_RANGE_dBFS, type MicLevels } from './usualLevels.ts'

/** What a device has learned of everybody who draws with it. */
export interface OwnVoices {
  /** Drawn by lot for this device, so that the same person has another key on another one. */
  readonly salt: string
  /** By a digest of the collector's id: names stand nowhere in it. */
  readonly people: Readonly<Record<string, OwnVoice>>
}

type Book = Readonly<Record<string, readonly string[] | undefined>>
type Fields = Readonly<Record<string, unknown>>

const HEX = /^[0-9a-f]{32}$/
const DAY = /^\d{4}-\d\d-\d\d$/
/** What is kept of the most people with every wording is far below this. */
const MOST_LETTERS = 4_000_000

/** The text under which it is kept; `''` where nothing is. */
export const ownVoicesText = ({ salt, people }: OwnVoices): string =>
  JSON.stringify({ version: 1, salt, people })

/**
 * Reads what was kept. A person whose numbers do not read is forgotten, and everybody where the whole does not; both
 * are told by `unread`. Wordings that the site no longer has are left out, which is no fault.
 * @param book the site's wordings by command
 */
export function readOwnVoices(
  text: string | undefined,
  book: Book,
): Salvaged<OwnVoices | undefined, 'unread'> {
  if (text === undefined || text === '') return { value: undefined, faults: [] }
  const whole = text.length <= MOST_LETTERS ? parseJson(text) : undefined
  const kept = whole?.ok ? whole.value : undefined
  const isKept = isRecord(kept) && kept.version === 1 && isRecord(kept.people)
  if (!isKept || typeof kept.salt !== 'string' || !HEX.test(kept.salt)) {
    return { value: undefined, faults: ['unread'] }
  }
  const found = Object.entries(kept.people as Fields)
  const good = found.flatMap(([id, one]) => {
    const voice = HEX.test(id) ? readVoice(one, book) : undefined
    return voice ? [[id, voice] as const] : []
  })
  return {
    value: { salt: kept.salt, people: Object.fromEntries(good) },
    faults: good.length < found.length ? ['unread'] : [],
  }
}

function readVoice(value: unknown, book: Book): OwnVoice | undefined {
  if (!isRecord(value)) return undefined
  const { usedOn, counts, levels, chosen, rests, never } = value
  if (typeof usedOn !== 'string' || !DAY.test(usedOn)) return undefined
  if (!isRecord(counts) || !isRecord(chosen) || !isRecord(rests)) return undefined
  if (!Array.isArray(levels) || levels.length > MOST_LEVELS || !levels.every(isLevels))
    return undefined
  if (!Array.isArray(never) || !never.every((key) => typeof key === 'string')) return undefined
  if (!Object.values(counts).every((each) => isRecord(each) && Object.values(each).every(isCounts)))
    return undefined
  if (!Object.values(rests).every((left) => isCount(left, REST_DRAWS))) return undefined
  const wordingsOf = (key: string): readonly string[] =>
    (Object.hasOwn(book, key) ? book[key] : undefined) ?? []
  const known = ([key]: readonly [string, unknown]): boolean => wordingsOf(key).length > 0
  return {
    usedOn,
    counts: Object.fromEntries(
      Object.entries(counts as Readonly<Record<string, Record<string, WordingCounts>>>)
        .filter(known)
        .map(([key, each]) => [
          key,
          Object.fromEntries(
            Object.entries(each).filter(([wording]) => wordingsOf(key).includes(wording)),
          ),
        ]),
    ),
    levels,
    chosen: Object.fromEntries(
      Object.entries(chosen as Readonly<Record<string, string>>).filter(([key, wording]) =>
        wordingsOf(key).includes(wording),
      ),
    ),
    rests: Object.fromEntries(Object.entries(rests as Record<string, number>).filter(known)),
    never: [...new Set(never)].filter((key) => wordingsOf(key).length > 0),
  }
}

const isCount = (value: unknown, most: number): boolean =>
  Number.isInteger(value) && Number(value) >= 0 && Number(value) <= most

function isCounts(value: unknown): boolean {
  if (!isRecord(value)) return false
  const { asked, heard, acted, takenBack } = value
  return (
    isCount(asked, MOST_COUNTED) &&
    isCount(heard, Number(asked)) &&
    isCount(acted, MOST_COUNTED) &&
    isCount(takenBack, Number(acted))
  )
}

function isLevels(value: unknown): value is MicLevels {
  const [least, most] = LEVEL_RANGE_dBFS
  const isLevel = (level: unknown): boolean =>
    Number.isInteger(level) && Number(level) >= least && Number(level) <= most
  return isRecord(value) && isLevel(value.room_dBFS) && isLevel(value.speech_dBFS)
}
