export const CLOCK_KINDS = ['band', 'rest', 'drying', 'warming', 'flash', 'fill', 'transfer', 'mix', 'pressure', 'watch', 'faint', 'exposure', 'timeLimit', 'clot', 'spinBy', 'cardDry'] as const // prettier-ignore
export type ClockKind = (typeof CLOCK_KINDS)[number]

/** The sounds a clock may ask for; the words spoken with them are found by clock and cue in the prompts file. */
export type CueChime = 'nearlyUp' | 'timeUp' | 'tubeFull' | 'mixNow'

export interface CueRow {
  readonly chime?: CueChime
  /** The chime says it all: no words are spoken with it. */
  readonly wordless?: true
}

/** What each clock calls out. When, is worked out from the policy and the state in `clocks.ts`. */
// prettier-ignore
export const CLOCK_TABLE = {
  band: { first: { chime: 'nearlyUp' }, second: { chime: 'nearlyUp' }, last: { chime: 'nearlyUp' }, up: { chime: 'timeUp' } },
  rest: { up: { chime: 'timeUp' } },
  drying: { up: { chime: 'timeUp' } },
  warming: { enough: { chime: 'nearlyUp' }, up: { chime: 'timeUp' } },
  flash: { up: {} },
  fill: { full: { chime: 'tubeFull' }, late: {} },
  transfer: { near: { chime: 'nearlyUp' }, up: { chime: 'timeUp' } },
  mix: { now: { chime: 'mixNow', wordless: true }, still: { chime: 'mixNow' } },
  pressure: { up: { chime: 'timeUp' } },
  watch: { up: { chime: 'timeUp' } },
  faint: { up: { chime: 'timeUp' } },
  // Time since a needlestick only shows: it never calls.
  exposure: {},
  timeLimit: { near: { chime: 'nearlyUp' }, up: { chime: 'timeUp' } },
  clot: { up: { chime: 'timeUp' } },
  spinBy: { up: { chime: 'timeUp' } },
  cardDry: { up: { chime: 'timeUp' } },
} as const satisfies Readonly<Record<ClockKind, Readonly<Record<string, CueRow>>>>

type CueOf<Kind extends ClockKind> = keyof (typeof CLOCK_TABLE)[Kind] & string

/** Names of cues, whichever clock gives them. */
export type CueName = { [Kind in ClockKind]: CueOf<Kind> }[ClockKind]

type SpokenCueOf<Kind extends ClockKind> = {
  [Name in CueOf<Kind>]: (typeof CLOCK_TABLE)[Kind][Name] extends { wordless: true } ? never : Name
}[CueOf<Kind>]

/** `cue.band.up`, for each cue that is spoken. */
export type CuePromptKey = { [Kind in ClockKind]: `cue.${Kind}.${SpokenCueOf<Kind>}` }[ClockKind]

const cuesOf = (kind: ClockKind): Readonly<Partial<Record<CueName, CueRow>>> => CLOCK_TABLE[kind]

export function isCueOf(kind: ClockKind, name: string): name is CueName {
  return Object.hasOwn(cuesOf(kind), name)
}

export function chimeOf(kind: ClockKind, cue: CueName): CueChime | undefined {
  return cuesOf(kind)[cue]?.chime
}
