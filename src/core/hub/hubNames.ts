/** As many characters as a name of a clinic, a device or a log may have. */
const HUB_NAME_MAX = 100

/** As many bytes as one message may have; below what a hub takes as it is set up, so that its own head fits too. */
export const HUB_BYTES_MAX = 900_000

/**
 * Whether a hub can keep something under this name. Any text will do but an empty one, one that is too long and one
 * with half of a character in it.
 */
export const isHubName = (name: string): boolean =>
  name.length > 0 && name.length <= HUB_NAME_MAX && !/\p{Surrogate}/u.test(name)

/** A key has two parts or more, `claim/KM47-L3`: the first says what it is about and who may write it. */
export function isHubKey(key: string): boolean {
  const parts = key.split('/')
  return parts.length > 1 && parts.length <= 4 && parts.every(isHubName)
}
