import type { Doing, Scenario, ScenarioAction, Via } from './scenario.ts'

/** One step of a rehearsal: what the trainee is told has happened, then what to say or do. */
export interface PracticeStep {
  /** Simulated time at which the step is due, ms since the draw was opened. */
  readonly at_ms: number
  /** Simulated time to let pass after the step before, ms. */
  readonly after_ms: number
  readonly line: number
  /** What the trainee sees happen, in order. */
  readonly tell: readonly string[]
  /** What to say, touch or type; absent when the app or the world acts. */
  readonly act?: { readonly via: Via; readonly text: string; readonly doing: Doing }
  /** The page sleeps, goes down, or its clock is set. */
  readonly world?: Extract<ScenarioAction, { kind: 'crash' | 'sleep' | 'hidden' | 'clock' }>
}

/** The script as a rehearsal reads it: without what tests expect. */
export function practiceSteps({ lines }: Pick<Scenario, 'lines'>): readonly PracticeStep[] {
  const steps: PracticeStep[] = []
  let tell: readonly string[] = []
  let before_ms = 0
  const push = (
    line: Scenario['lines'][number],
    more: Pick<PracticeStep, 'act' | 'world'>,
  ): void => {
    const { at_ms } = line
    steps.push({ at_ms, after_ms: at_ms - before_ms, line: line.line, tell, ...more })
    tell = []
    before_ms = at_ms
  }
  for (const line of lines) {
    switch (line.kind) {
      case 'tell':
        tell = [...tell, line.text]
        break
      case 'do':
        push(line, { act: { via: line.via, text: line.text, doing: line.doing } })
        break
      case 'crash':
      case 'sleep':
      case 'hidden':
      case 'clock':
        push(line, { world: line })
        break
      case 'wait':
        push(line, {})
        break
      case 'expect':
        break
    }
  }
  return steps
}
