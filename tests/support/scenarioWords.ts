import type { Ask } from '../../src/core/protocol/rules.ts'
import type { NoteTemplate } from '../../src/core/record/noteTemplate.ts'
import type { SimulatedDraw } from './simulatedDraw.ts'

/** The words a scenario is held against: those of the screens, the voice and the chart. */
export interface ScenarioWords {
  readonly steps: Readonly<Record<string, { readonly title: string } | undefined>>
  readonly exceptions: Readonly<Record<string, { readonly title: string } | undefined>>
  readonly flags: Readonly<Record<string, string | undefined>>
  readonly impossible: Readonly<Record<string, string | undefined>>
  readonly asks: Readonly<Record<string, string | undefined>>
  readonly clocks: Readonly<Record<string, string | undefined>>
  readonly outcomes: Readonly<Record<string, string | undefined>>
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
