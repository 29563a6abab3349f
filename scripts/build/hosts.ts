const LOOPBACK = /^(localhost|([a-z0-9-]+\.)+localhost|127(\.\d{1,3}){3}|\[::1\])$/

/** The name that the app has on its own machine: a browser keeps records by address, so there is one only. */
export const OWN_NAME = 'localhost'

/**
 * What a request's `Host` makes of it. Only names of this machine and those that were configured are answered: a page
 * elsewhere may point a name of its own at this machine and read what is served (DNS rebinding).
 * `elsewhere` is another name of this machine, under which the records would not be seen.
 * @param host the header; a port in it does not matter
 * @param configured names that are served as they are
 */
export function hostKind(
  host: string | undefined,
  configured: readonly string[],
): 'own' | 'elsewhere' | 'foreign' {
  const name = (host ?? '').toLowerCase().replace(/:\d+$/, '')
  if (name === OWN_NAME || configured.includes(name)) return 'own'
  return LOOPBACK.test(name) ? 'elsewhere' : 'foreign'
}

/** Names from a list with commas between them, as a person writes it; in lower case, without a port. */
export const hostsFrom = (list: string): readonly string[] =>
  list
    .split(',')
    .map((name) => name.trim().toLowerCase().replace(/:\d+$/, ''))
    .filter((name) => name !== '')
