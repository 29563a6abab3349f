import { clinicSubjects, inboxOf, joinSubject, keysSubject, siteSubjects } from './subjects.ts'
import { tokenOf } from './token.ts'

/**
 * `device`: writes its own entries, reads the clinic's, claims. `desk`: also what the site sets, and answers who wants
 * to join. `reader`: looks on. `joining`: may ask to join and nothing else.
 */
export const HUB_ROLES = ['device', 'desk', 'reader', 'joining'] as const
export type HubRole = (typeof HUB_ROLES)[number]

/** What every device may write among the shared values; everything else is the desk's. */
const DEVICE_KEYS = ['claim', 'act', 'stock'] as const

/** The name of every joining pass; answers to those who ask come under it. */
export const JOINING = 'joining'

const ANSWER_ns = 60_000_000_000

export interface Rights {
  readonly pub: { readonly allow: string[] }
  readonly sub: { readonly allow: string[] }
  readonly resp?: { readonly max: number; readonly ttl: number }
}

/** What it takes to read a stream: single messages, pages, and readers that end by themselves. */
const readingOf = (stream: string): string[] => [
  `$JS.API.STREAM.MSG.GET.${stream}`,
  `$JS.API.DIRECT.GET.${stream}`,
  `$JS.API.DIRECT.GET.${stream}.>`,
  `$JS.API.STREAM.INFO.${stream}`,
  `$JS.API.CONSUMER.CREATE.${stream}.>`,
  `$JS.API.CONSUMER.INFO.${stream}.*`,
  `$JS.API.CONSUMER.MSG.NEXT.${stream}.*`,
  `$JS.API.CONSUMER.DELETE.${stream}.*`,
]

/** What a pass of this role may send and hear; nothing else is allowed. */
export function rightsOf(role: HubRole, clinic: string, name: string): Rights {
  const inbox = { allow: [`${inboxOf(name)}.>`] }
  const asking = joinSubject(clinic)
  if (role === 'joining') return { pub: { allow: [asking] }, sub: inbox }
  const reading = ['CLINIC', 'KV_SITE'].flatMap(readingOf)
  if (role === 'reader') return { pub: { allow: reading }, sub: inbox }
  const own = `${clinicSubjects(clinic).slice(0, -1)}*.${tokenOf(name)}`
  const entries = [`${own}.entry`, `${own}.writer`]
  if (role === 'device') {
    const keys = DEVICE_KEYS.map((first) => keysSubject(clinic, first))
    return { pub: { allow: [...entries, ...keys, asking, ...reading] }, sub: inbox }
  }
  return {
    pub: { allow: [...entries, siteSubjects(clinic), asking, ...reading] },
    sub: { allow: [...inbox.allow, asking] },
    resp: { max: 1, ttl: ANSWER_ns },
  }
}
