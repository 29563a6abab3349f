interface Right {
  readonly whose: string
  readonly type: string
  readonly acts: string
}

const RIGHT = /^(patient|user|system)\/([A-Za-z]+|\*)\.([a-z]+|\*)(\?.*)?$/
/** SMART App Launch 2, "Scopes for requesting clinical data", with what version 1 calls them. */
const VERSION_1: Readonly<Record<string, string>> = { read: 'rs', write: 'cud', '*': 'cruds' }

function rightOf(scope: string): Right | undefined {
  const [, whose, type, acts, narrowed] = RIGHT.exec(scope) ?? []
  // One that is narrowed by a search gives less than its name says.
  if (whose === undefined || type === undefined || acts === undefined) return undefined
  return narrowed ? undefined : { whose, type, acts: VERSION_1[acts] ?? acts }
}

/**
 * The rights that were asked for and not given, as they were asked for. An authorization server may give more, or the
 * same in other words; what is no right to data (`launch`, `offline_access`) is not looked at.
 * @param granted `scope` of the token's answer; RFC 6749 section 5.1 leaves it out where it is what was asked for
 */
export function missingScopes(asked: string, granted: string | undefined): readonly string[] {
  if (granted === undefined) return []
  const given = words(granted).flatMap((scope) => rightOf(scope) ?? [])
  const exact = new Set(words(granted))
  return words(asked).filter((scope) => {
    if (exact.has(scope)) return false
    const right = rightOf(scope)
    return right !== undefined && !isCovered(right, given)
  })
}

const isCovered = ({ whose, type, acts }: Right, given: readonly Right[]): boolean =>
  [...acts].every((act) =>
    given.some(
      (each) =>
        each.whose === whose &&
        (each.type === '*' || each.type === type) &&
        each.acts.includes(act),
    ),
  )

const words = (text: string): readonly string[] => text.split(/\s+/).filter((word) => word !== '')
