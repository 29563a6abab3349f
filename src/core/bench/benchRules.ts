import type { Additive } from '../catalogue/additives.ts'
import type { SpinTemperature, StorePlace } from '../protocol/benchEvents.ts'

/** How tubes of an additive are spun, as usual; the tube's maker and the laboratory come first. */
export interface SpinRow {
  readonly additives: readonly Additive[]
  readonly g: number
  /** Minutes in a rotor that swings out, and in one of fixed angle. */
  readonly swing_min: number
  readonly fixed_min: number
  readonly source: string
}

/** What a specimen is that decides where it is kept, in the order in which they are asked. */
export const STORE_WHENS = [
  'culture',
  'card',
  'ice',
  'warm',
  'incubated',
  'parted',
  'citrate',
  'roomOnly',
  'whole',
] as const
export type StoreWhen = (typeof STORE_WHENS)[number]

export interface StoreRow {
  readonly when: StoreWhen
  readonly where: StorePlace
  readonly never: readonly StorePlace[]
  readonly source: string
}

/** What a site may change of the bench, with sources. */
export interface BenchRules {
  readonly spins: readonly SpinRow[]
  readonly stores: readonly StoreRow[]
  /** Blood of a patient on a blood thinner stands so much longer, minutes. */
  readonly clotLonger_min: number
  readonly clotLongerSource: string
}

/** How a specimen is to be spun. */
export interface SpinNeed {
  readonly g: number
  readonly min: number
  readonly temperature: SpinTemperature
  readonly source: string
}
