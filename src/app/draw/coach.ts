import { practiceSteps, type PracticeStep } from '../../core/scenario/practiceSteps.ts'
import type { Scenario } from '../../core/scenario/scenario.ts'
import type { CoachView } from '../view/drawViewTypes.ts'

/** Goes through a scenario's script with the trainee, one confirmation at a time. */
export interface Coach {
  view(): CoachView
  /** The trainee confirmed something. */
  advance(): void
}

const HOW = { say: 'Say', touch: 'Touch', key: 'Press', scan: 'Scan', write: 'Write' } as const

export function createCoach(scenario: Scenario): Coach {
  // Crashes, sleeps and changed clocks are for tests; a trainee cannot do them.
  const steps = practiceSteps(scenario).filter(({ act }) => act !== undefined)
  let index = 0
  return {
    view: () => coachView(scenario.title, steps[index]),
    advance: () => {
      index = Math.min(index + 1, steps.length)
    },
  }
}

function coachView(title: string, step: PracticeStep | undefined): CoachView {
  if (!step?.act)
    return { title, tell: ['The script is at its end. Go on as the screen says.'], act: undefined }
  return { title, tell: step.tell, act: `${HOW[step.act.via]} "${step.act.text}"` }
}
