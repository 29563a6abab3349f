import type { Result } from '../basics/result.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { Anticoagulant, Arm, ArmRestriction } from '../order/order.ts'
import type { SetAside, UnlabelledEnd } from '../protocol/events.ts'
import type { Command, CommandKey } from '../protocol/commands.ts'

/** What a script may train. */
export const TRAINS = [
  'whole',
  'identity',
  'consent',
  'vein',
  'tubes',
  'patient',
  'collector',
  'heel',
  'device',
] as const
export type Trains = (typeof TRAINS)[number]

/** A rehearsed draw: who and what, then a script of what is said and done and what the app should answer. */
export interface Scenario {
  readonly title: string
  /** One or two sentences for the list of practice draws. */
  readonly about: string
  readonly trains?: Trains
  readonly order: ScenarioOrder
  readonly lines: readonly ScenarioLine[]
  /** The later draws of an order that is drawn several times, in turn. */
  readonly later?: readonly ScenarioSitting[]
  /** How many minutes an hour of waiting between them lasts. */
  readonly hour_min?: number
}

/** A later draw, each with its own clock: times are counted from its opening. */
export interface ScenarioSitting {
  /** After the end of the script of the draw before, ms. */
  readonly after_ms: number
  readonly lines: readonly ScenarioLine[]
}

/** The order the rack is planned for: catalogue codes and the answers taken before the draw. */
export interface ScenarioOrder {
  readonly tests: readonly string[]
  /** An invented child in the place of the invented adult. */
  readonly child?: {
    readonly age_months: number
    readonly age_days?: number
    readonly weight_kg: number
  }
  /** Not from a vein. */
  readonly collecting?: SkinPlace
  readonly anticoagulant?: Anticoagulant
  readonly restrictions?: Readonly<Partial<Record<Arm, ArmRestriction>>>
}

/** How a command reaches the app in a scenario. */
export type Via = 'say' | 'touch' | 'key' | 'scan' | 'write'

/** What the app should show, by the words on the screen, or what the chart should say. */
export type ExpectKind =
  | 'screen'
  | 'step'
  | 'ask'
  | 'refused'
  | 'flag'
  | 'no flag'
  | 'cue'
  | 'clock'
  | 'chart'
  | 'no chart'
  | 'outcome'

export type ScenarioAction =
  | { readonly kind: 'do'; readonly via: Via; readonly text: string; readonly doing: Doing }
  /** What happens around the person: read aloud or shown in practice, nothing to the app. */
  | { readonly kind: 'tell'; readonly text: string }
  | { readonly kind: 'wait' }
  /** The page goes down and comes back after that long. */
  | { readonly kind: 'crash'; readonly away_ms: number }
  /** The computer sleeps: the wall clock runs on, the page's own clock stands still. */
  | { readonly kind: 'sleep'; readonly away_ms: number }
  /** The page is held back in the background: both clocks run, nothing is called out. */
  | { readonly kind: 'hidden'; readonly away_ms: number }
  /** The computer's clock is set forward or back. */
  | { readonly kind: 'clock'; readonly by_ms: number }
  | { readonly kind: 'expect'; readonly what: ExpectKind; readonly text: string }

/** A command known from the text alone, or one that depends on the moment (a key of the screen, a label's number). */
export type Doing =
  | { readonly kind: 'command'; readonly command: Command; readonly key?: CommandKey }
  | { readonly kind: 'main' }
  | { readonly kind: 'choice'; readonly number: number }
  | { readonly kind: 'label'; readonly tube: number }
  | { readonly kind: 'tubeNamed'; readonly tube: number }
  | {
      readonly kind: 'lost'
      readonly why: Exclude<SetAside, 'noVacuum' | 'unlabelledTube' | 'badCircles'>
      readonly tube: number
    }
  | {
      readonly kind: 'unlabelled'
      readonly how: UnlabelledEnd
      readonly tube: number
      readonly by: string
    }

export type ScenarioLine = ScenarioAction & {
  /** Time since the draw was opened, ms. */
  readonly at_ms: number
  /** Line of the file, from 1. */
  readonly line: number
}

export interface ScenarioFault {
  readonly line: number
  readonly message: string
}

/** A script, or everything that is wrong with it. */
export type ScenarioReading = Result<Scenario, ScenarioFault>
