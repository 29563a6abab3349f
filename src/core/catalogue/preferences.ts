import type { Backing } from '../policy/policy.ts'
import type { Additive } from './additives.ts'

/**
 * How a site wants a group of tests drawn, beyond what the tests need. `additives`: only these tubes, the first one
 * best, as long as one of them is on hand. `ownTube`: these tests share with each other and with nothing else.
 */
export interface TubePreference {
  readonly id: string
  readonly tests: readonly string[]
  readonly additives?: readonly Additive[]
  readonly ownTube?: boolean
  readonly source: string
  readonly backing: Backing
}
