import type { HandOverRow, Leaving } from '../../core/handOver/handOverRow.ts'
import type { HandOverLogin, HandOverState } from '../../core/handOver/handOverState.ts'
import type { ServerAnswer } from '../../core/handOver/serverAnswer.ts'
import type { TextFile } from '../../ports/page.ts'

export type HandOverTrouble = Exclude<ServerAnswer, { readonly kind: 'done' }>

/** Handing over as the screens show it. */
export interface HandOverView {
  readonly state: HandOverState
  /** Address of the site's record server. */
  readonly server: string | undefined
  /** The address that it was switched on for, where that is another one. */
  readonly before?: string
  /** What does not read in the site's file. */
  readonly faults: readonly string[]
  readonly trouble: HandOverTrouble | undefined
  /** ms since 1970 UTC. */
  readonly next_ms: number | undefined
  readonly rows: readonly HandOverRow[]
  /** The latest first. */
  readonly left: readonly Leaving[]
  /** Whether the site said which orders are for this place, and how fetching them went last. */
  readonly orders: {
    readonly may: boolean
    readonly isFetching: boolean
    readonly last_ms: number | undefined
    readonly listed_n: number
    /** So many were left out, because other devices have drawn them. */
    readonly elsewhere_n: number
    readonly trouble: HandOverTrouble | undefined
    readonly told: readonly string[]
  }
  /** How this device logs in there. */
  readonly login: HandOverLogin
}

export const NO_HAND_OVER: HandOverView = {
  state: 'none',
  server: undefined,
  faults: [],
  trouble: undefined,
  next_ms: undefined,
  rows: [],
  left: [],
  orders: {
    may: false,
    isFetching: false,
    last_ms: undefined,
    listed_n: 0,
    elsewhere_n: 0,
    trouble: undefined,
    told: [],
  },
  login: 'none',
}

/** What a person can do with it. None rejects; what goes wrong is told. */
export interface HandOverActions {
  /** For the address that the site names now. Draws that stand here before the first time do not go by themselves. */
  switchOn(): Promise<void>
  switchOff(): Promise<void>
  pause(isPaused: boolean): Promise<void>
  /** Sends what waits, whatever wait there was. */
  sendNow(): void
  again(key: string): Promise<void>
  /** Everything that was refused. */
  againAll(): Promise<void>
  /** @param by who says so */
  drop(key: string, by: string): Promise<void>
  /** Draws from before it was switched on go too. */
  sendEarlier(): Promise<void>
  fetchNow(): Promise<void>
  dismissTold(): void
  /** The public half of this device's key, for whoever looks after the authorization server. */
  keyFile(): Promise<TextFile | undefined>
}
