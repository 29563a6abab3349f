import type { ClockKind } from '../../src/core/protocol/clockTable.ts'
import type { Flag, Outcome } from '../../src/core/protocol/events.ts'
import type { ExceptionKind } from '../../src/core/protocol/exceptions.ts'
import type { Ask } from '../../src/core/protocol/asks.ts'
import type { Impossible } from '../../src/core/protocol/impossible.ts'
import type { StepId } from '../../src/core/protocol/steps.ts'
import type { NoteTemplate } from '../../src/core/record/noteTemplate.ts'
import type { SimulatedDraw } from '../../src/core/scenario/simulatedDraw.ts'

/** The words a scenario is held against: those of the screens, the voice and the chart. */
export interface ScenarioWords {
  readonly steps: Readonly<Record<StepId, { readonly title: string }>>
  readonly exceptions: Readonly<Record<ExceptionKind, { readonly title: string }>>
  readonly flags: Readonly<Record<Flag, string>>
  readonly impossible: Readonly<Record<Impossible, string>>
  readonly asks: Readonly<Record<Ask, string>>
  readonly clocks: Readonly<Record<ClockKind, string>>
  readonly outcomes: Readonly<Record<Outcome, string>>
  readonly prompts: Readonly<Record<string, string | undefined>>
  readonly note: NoteTemplate
}

/** What is known at a line when something is expected there. */
export interface Moment {
  readonly draw: SimulatedDraw
  readonly ask: Ask | undefined
  readonly refused: string | undefined
  /** The first entry written since the last thing done or told, by number. */
  readonly since: number
}
