import { expect, it } from 'vitest'
import { stepNumber, STEPS_IN_ALL } from '../../../src/app/view/stepNumber.ts'
import { STEP_IDS, stepOf, type StepId } from '../../../src/core/protocol/steps.ts'
import { drawDriver, nextByTheScreen } from '../../support/drawDriver.ts'

/** The steps of a draw in which everything goes as the screen asks, in the order in which they first come. */
function straightSteps(): readonly StepId[] {
  const draw = drawDriver()
  const steps: StepId[] = []
  while (!draw.state().closed) {
    steps.push(stepOf(draw.state()).id)
    const [asked] = nextByTheScreen(draw.state())
    if (!asked) throw new Error(`nothing to do at ${draw.step()}`)
    draw.advance(1000)
    draw.tries(asked)
  }
  return [...new Set(steps)]
}

it('counts up to the last step of a straight draw, none of it twice but where the band comes off', () => {
  const numbers = straightSteps()
    .filter((id) => id !== 'release')
    .map(stepNumber)
  expect(numbers).toEqual([...numbers].sort((a, b) => a - b))
  expect(new Set(numbers).size).toBe(numbers.length)
  expect(numbers[0]).toBe(1)
  expect(numbers.at(-1)).toBe(STEPS_IN_ALL)
})

it('gives every step a number on that path', () => {
  const numbers = STEP_IDS.map(stepNumber)
  expect(Math.min(...numbers)).toBe(1)
  expect(new Set(numbers).size).toBe(STEPS_IN_ALL)
})
