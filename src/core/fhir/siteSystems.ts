import { LOCAL } from './codes.ts'

/** A kind of thing that the site's record server has of its own, and by what it is found there. */
export interface SiteSystem {
  /** URI under which the site's numbers stand: `Identifier.system`. */
  readonly system: string
  /** Whether what is not found may be created; otherwise the server refuses the whole record. */
  readonly create: boolean
}

/** How a site's record server names what the record is about. What is missing was never said. */
export interface SiteSystems {
  /** Address under which our own code systems and numbers stand; without one they are `urn:stillhand:...`. */
  readonly base?: string
  /** Of record numbers. Without it no record can be handed over: it would not find its patient. */
  readonly patient?: SiteSystem
  /** Of the people who draw; its values are what they give as initials. Without it they are only named. */
  readonly practitioner?: SiteSystem
  /**
   * Of order numbers: all requests of an order have it as `requisition`, or the one request has it as `identifier`.
   * Without it an order is only named. What has one request for all tests is found and never created.
   */
  readonly order?: SiteSystem & { readonly foundBy: 'requisition' | 'identifier' }
  readonly visit?: string
  readonly provider?: string
}

export const NO_SITE_SYSTEMS: SiteSystems = {}

/** Our own systems that hold codes; the others hold numbers of people and things. */
export const CODE_SYSTEMS = [
  'test',
  'tube',
  'additive',
  'site',
  'needle',
  'observation',
  'consent',
  'missing',
  'exception',
] as const satisfies readonly (keyof typeof LOCAL)[]
export type CodeSystemName = (typeof CODE_SYSTEMS)[number]

const isCodeSystem = (name: string): boolean => (CODE_SYSTEMS as readonly string[]).includes(name)

/** Where one of our own systems stands: a name of ours, or an address below the base. */
export function systemAt(name: keyof typeof LOCAL, base: string | undefined): string {
  if (base === undefined) return LOCAL[name]
  return `${base.replace(/\/+$/, '')}/${isCodeSystem(name) ? 'CodeSystem' : 'sid'}/${name}`
}

/** Systems as the site has them, by the names that they have within this app. */
function named(site: SiteSystems): ReadonlyMap<string, string> {
  const names = Object.keys(LOCAL) as (keyof typeof LOCAL)[]
  const ours = names.map((name) => [LOCAL[name], systemAt(name, site.base)] as const)
  const theirs = [
    [LOCAL.patient, site.patient?.system],
    [LOCAL.initials, site.practitioner?.system],
    [LOCAL.order, site.order?.system],
    [LOCAL.visit, site.visit],
    [LOCAL.provider, site.provider],
  ] as const
  return new Map([...ours, ...theirs.flatMap(([name, own]) => (own ? [[name, own] as const] : []))])
}

/** The same resources with every system as the site has it. */
export function withSystems<T>(value: T, site: SiteSystems): T {
  const systems = named(site)
  const walk = (part: unknown): unknown => {
    if (Array.isArray(part)) return part.map(walk)
    if (typeof part !== 'object' || part === null) return part
    return Object.fromEntries(
      Object.entries(part).map(([key, field]) => [
        key,
        key === 'system' && typeof field === 'string' ? (systems.get(field) ?? field) : walk(field),
      ]),
    )
  }
  return walk(value) as T
}
