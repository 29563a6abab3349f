/** No file of a site beside the page comes near to it. */
export const SITE_FILE_MAX = 100_000

/**
 * A file of the site beside the page, of one that is too large only more than `SITE_FILE_MAX`; `undefined` where there
 * is none. A page for people that stands there for every name is none.
 * @param readText rejects where there is none
 */
export async function readSiteFile(
  readText: (path: string, most_B: number) => Promise<string>,
  name: string,
): Promise<string | undefined> {
  // A character has four bytes at most (RFC 3629).
  const text = await readText(name, 4 * SITE_FILE_MAX + 4).catch(() => undefined)
  return text === undefined || /^\s*(<|$)/.test(text) ? undefined : text
}
