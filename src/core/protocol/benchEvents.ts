/** Where a specimen is kept until it is examined or fetched; a site may give the places its own names. */
export const STORE_PLACES = [
  'room',
  'fridge',
  'freezer',
  'deepFreezer',
  'incubator',
  'ice',
  'warm',
  'dark',
] as const
export type StorePlace = (typeof STORE_PLACES)[number]

/** Places at which blood that was not spun becomes cold. */
export const COLD_PLACES: readonly StorePlace[] = ['fridge', 'freezer', 'deepFreezer', 'ice']

/** Why a laboratory turns a specimen down: codes of HL7 version 2 table 0490. */
export const REJECT_REASONS = [
  'EX',
  'QS',
  'RA',
  'RB',
  'RC',
  'RD',
  'RE',
  'RH',
  'RI',
  'RM',
  'RN',
  'RP',
  'RR',
  'RS',
] as const
export type RejectReason = (typeof REJECT_REASONS)[number]

export const SPIN_TEMPERATURES = ['room', 'cold'] as const
export type SpinTemperature = (typeof SPIN_TEMPERATURES)[number]

/** What the spin was set to, as far as somebody said. */
export interface SpinSetting {
  /** Relative centrifugal force. */
  readonly g?: number
  readonly spin_min?: number
  readonly temperature?: SpinTemperature
  readonly rpm?: number
  readonly rotor?: string
}

/** Who took the specimens where. */
export interface Sending {
  readonly courier?: string
  readonly pack?: string
  readonly laboratory?: string
}

interface OfTubes {
  readonly tubeIds: readonly string[]
  /** One act on tubes of several draws stands in each of them under the same id. */
  readonly act?: string
  /** Unix ms, where it was not when the entry was written: charted or told later. */
  readonly at_ms?: number
}

/** What a person does with specimens after the draw, or hears of them. */
export type BenchAct = OfTubes &
  (
    | ({ readonly type: 'spinStarted' } & SpinSetting)
    | { readonly type: 'spinEnded' }
    /** Serum or plasma is off the cells, in another tube or behind its gel. */
    | { readonly type: 'separated' }
    | { readonly type: 'aliquoted'; readonly portions: number }
    | { readonly type: 'stored'; readonly where: StorePlace }
    | { readonly type: 'bagged'; readonly bag: string }
    | ({ readonly type: 'courierTook' } & Sending)
    /** Somebody brought them: from a home visit, or on foot. */
    | { readonly type: 'droppedOff'; readonly to: string; readonly by?: string }
    | { readonly type: 'labReceived'; readonly by?: string }
    | { readonly type: 'labRejected'; readonly reason: RejectReason; readonly note?: string }
  )
export type BenchActType = BenchAct['type']

/** The same in a log. A courier without tubes took every specimen of the draw: so it stands in older logs. */
export type BenchEvent =
  | Exclude<BenchAct, { type: 'courierTook' }>
  | (Sending & Partial<OfTubes> & { readonly type: 'courierTook' })

/** After these a specimen is no longer here. */
export const LEAVES: readonly BenchActType[] = [
  'courierTook',
  'droppedOff',
  'labReceived',
  'labRejected',
]

/** Every one of them. */
export const BENCH_ACTS: Readonly<Record<BenchActType, true>> = {
  spinStarted: true,
  spinEnded: true,
  separated: true,
  aliquoted: true,
  stored: true,
  bagged: true,
  courierTook: true,
  droppedOff: true,
  labReceived: true,
  labRejected: true,
}

export function isBenchEvent<E extends { readonly type: string }>(
  event: E,
): event is Extract<E, { type: BenchActType }> {
  return Object.hasOwn(BENCH_ACTS, event.type)
}
