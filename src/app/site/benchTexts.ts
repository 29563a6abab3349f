import type { Text } from '../../core/basics/fillText.ts'
import type { LatestOf } from '../../core/bench/benchBoard.ts'
import type { BenchStepId } from '../../core/bench/benchSteps.ts'
import type { RotorAngle } from '../../core/bench/rcf.ts'
import type { BenchActType, SpinTemperature } from '../../core/protocol/benchEvents.ts'

/** `bench.json` of a language: the bench. */
export interface BenchTexts {
  readonly language: string
  readonly title: string
  readonly caution: string
  readonly empty: string
  readonly names: string
  readonly practice: string
  readonly steps: Readonly<Record<BenchStepId, { readonly title: string; readonly about: string }>>
  readonly open: string
  readonly now: string
  /** Nothing is to be done but to wait for the courier. */
  readonly waits: string
  /** `{what}`: what to do. */
  readonly passedSo: string
  /** A key for each act, in braces. */
  readonly keys: string
  /** On the first screen, with the way here. */
  readonly summary: string
  readonly toBench: string
  /** `{n}` */
  readonly overN: Text
  /** `{min}` */
  readonly inTime: string
  readonly never: string
  /** `{what}`, `{at}` */
  readonly until: string
  readonly passed: string
  readonly limits: Readonly<Record<LatestOf, string>>
  readonly onBench: string
  /** How many specimens: `{n}`. */
  readonly due: Text
  readonly passedOnes: Text
  /** What to do with what has passed its time. */
  readonly overWhat: Readonly<Record<LatestOf, string>>
  readonly clotsLonger: string
  readonly neverStore: string
  readonly select: string
  readonly acts: Readonly<
    Record<'spinStarted' | 'spinEnded' | 'separated' | 'aliquoted' | 'stored' | 'bagged', string>
  >
  readonly portions: string
  readonly place: string
  readonly bag: string
  readonly bagHint: string
  /** Stands in the place of the bag's name, where it was closed by voice. */
  readonly bagUnnamed: string
  readonly runs: Readonly<Record<SpinTemperature | RunText, string>> & {
    readonly blanks: Text
    readonly further: Text
  }
  readonly angles: Readonly<Record<RotorAngle, string>>
  readonly done: string
  readonly doneActs: Readonly<Record<BenchActType, string>>
  readonly doneAt: Text
  readonly takeBack: string
  readonly takeBackOf: string
  readonly settings: Readonly<
    Record<
      'title' | 'about' | 'places' | 'radius' | 'radiusHint' | 'most' | 'angle' | 'converts',
      string
    >
  >
}

type RunText =
  | 'title'
  | 'about'
  | 'speed'
  | 'tooFast'
  | 'noBlanks'
  | 'unfit'
  | 'picture'
  | 'placeOf'
  | 'blank'
  | 'source'
  | 'start'
  | 'example'
  | 'rotor'
