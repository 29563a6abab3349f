import { isRecord } from '../basics/isRecord.ts'

type Json = Readonly<Record<string, unknown>>

/** What an entry of a Bundle holds, as it came; empty where it holds nothing. */
export const resourceOf = (entry: Json): Json =>
  isRecord(entry['resource']) ? entry['resource'] : {}

/** Which resource that is, by its name. */
export const typeOf = (entry: Json): unknown => resourceOf(entry)['resourceType']
