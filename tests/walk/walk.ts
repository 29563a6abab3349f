/**
 * `npm run walk -- [departures]`: visits every state of a draw within so many departures from what the screen
 * asks for (2 when not given) and proves that each has a way to a recorded end; without a number it also draws
 * pictures/protocol.svg.
 * Prints its counts as JSON; ends with 1 when there is a dead end or the screen asks for what cannot be.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import words from '../../src/data/en/words.json' with { type: 'json' }
import { STEP_IDS } from '../../src/core/protocol/steps.ts'
import { stepGraph } from './stepGraph.ts'
import { stepPicture } from './stepPicture.ts'
import { CARD_OPENING, HEEL_OPENING, SYRINGE_OPENING, WALKED_OPENING } from './walkedOpening.ts'
import { deadEnds, walkStates, wayTo } from './walkStates.ts'

const departures = Number(process.argv[2] ?? 2)
const walk = walkStates(WALKED_OPENING, departures)
const heel = walkStates(HEEL_OPENING, Math.min(1, departures))
const card = walkStates(CARD_OPENING, Math.min(1, departures))
const syringe = walkStates(SYRINGE_OPENING, Math.min(1, departures))
const walks = [walk, heel, card, syringe]
const dead = walks.flatMap(deadEnds)
const refused = walks.flatMap(({ refusedMains }) => refusedMains)
const states = walks.flatMap((each) => [...each.states.values()])
const steps = new Set(states.map(({ step }) => step))

const straight = [WALKED_OPENING, HEEL_OPENING, CARD_OPENING, SYRINGE_OPENING]
  .flatMap((opening) => stepGraph(walkStates(opening, 0)))
  .filter(({ asked }) => asked)
const drawn = new Set(straight.map(({ from, to }) => `${from} ${to}`))
const nearby = [walkStates(WALKED_OPENING, 1), heel, card, syringe].flatMap(stepGraph)
const known = new Set(nearby.flatMap(({ from, to }) => [from, to]))
// Steps that only a longer way comes to (a colleague, after two attempts) are drawn with their ways as well.
const further = stepGraph(walk).filter(({ from, to }) => !known.has(from) || !known.has(to))
const other = [...nearby, ...further].filter(
  ({ from, to, asked }) => (asked || !known.has(to)) && !drawn.has(`${from} ${to}`),
)
const count = walk.states.size.toLocaleString('en-US')
const caption = [
  'Green: the straight way and the ends it can come to. Brown: ways that open once something else was said or happened.',
  `Generated from a walk over ${count} states, all within ${departures} departures from what the screen asks for: from each there is a way to a recorded end.`,
]
if (process.argv[2] === undefined) {
  const picture = stepPicture(straight, other, words.steps, caption)
  mkdirSync(new URL('../../pictures/', import.meta.url), { recursive: true })
  writeFileSync(new URL('../../pictures/protocol.svg', import.meta.url), picture)
}

const report = {
  departures,
  states: walk.states.size,
  moves: walk.moves,
  ends: [...walk.states.values()].filter(({ state }) => state.closed).length,
  steps: steps.size,
  stepsNotReached: STEP_IDS.filter((id) => !steps.has(id)),
  heelStates: heel.states.size,
  cardStates: card.states.size,
  syringeStates: syringe.states.size,
  deadEnds: dead.length,
  refusedMains: refused.length,
}
process.stdout.write(`${JSON.stringify(report)}\n`)
for (const key of dead.slice(0, 10))
  process.stderr.write(
    `dead end: ${wayTo(walks.find(({ states: all }) => all.has(key)) ?? walk, key).join(', ')}\n`,
  )
process.exitCode = dead.length + refused.length > 0 ? 1 : 0
