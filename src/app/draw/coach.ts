import { fillText } from '../../core/basics/fillText.ts'
import { practiceSteps, type PracticeStep } from '../../core/scenario/practiceSteps.ts'
import type { Scenario } from '../../core/scenario/scenario.ts'
import type { DrawTexts } from '../site/drawTexts.ts'
import type { CoachView } from '../view/drawViewTypes.ts'

/** Goes through a scenario's script with the trainee, one confirmation at a time. */
export interface Coach {
  view(): CoachView
  /** The trainee confirmed something. */
  advance(): void
}

/** @param sitting which draw of an order of several */
export function createCoach(scenario: Scenario, texts: DrawTexts['coach'], sitting = 1): Coach {
  // Crashes, sleeps and changed clocks are for tests; a trainee cannot do them.
  const { later = [] } = scenario
  const script = later[sitting - 2] ?? scenario
  const end = sitting <= later.length ? texts.endOfSitting : texts.end
  const steps = practiceSteps(script).filter(({ act }) => act !== undefined)
  let index = 0
  return {
    view: () => coachView(scenario.title, steps[index], { ...texts, end }),
    advance: () => {
      index = Math.min(index + 1, steps.length)
    },
  }
}

function coachView(
  title: string,
  step: PracticeStep | undefined,
  texts: DrawTexts['coach'],
): CoachView {
  if (!step?.act) return { title, tell: [texts.end], act: undefined }
  const { via, text } = step.act
  return { title, tell: step.tell, act: fillText(texts[via], { text }) }
}
