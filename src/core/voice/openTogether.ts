import { ALWAYS_OPEN, commandsWhere } from '../protocol/commandTable.ts'
import { EXCEPTION_TABLE } from '../protocol/exceptionTable.ts'
import { STEPS, type StepRow } from '../protocol/steps.ts'

/** Commands that some state of the draw can open at any step: trouble, its ends, and what is owed. */
const ANYWHERE: ReadonlySet<string> = new Set<string>([
  ...commandsWhere(({ alwaysOpen, owed }) => alwaysOpen !== undefined || owed !== undefined),
  ...Object.values(EXCEPTION_TABLE).flatMap(({ endedBy }) => endedBy),
  'exceptionHandled',
])
const ANSWERS: ReadonlySet<string> = new Set(commandsWhere(({ answer }) => answer !== undefined))

/** A `main` that depends on the state is one of these. */
const mainsOf = ({ main }: StepRow): readonly string[] =>
  main === undefined ? [] : typeof main === 'string' ? [main] : ['labelMatches', 'labelsDone']

/** The commands of each row of the step table. */
const ROWS: readonly ReadonlySet<string>[] = STEPS.map(
  (row) => new Set<string>([...mainsOf(row), ...row.also]),
)

/** Commands that a step, by its id, and the safety row open; for checks and measurements without a draw. */
export function openAtStep(id: string): readonly string[] | undefined {
  const rows = STEPS.filter((row) => row.id === id)
  if (rows.length === 0) return undefined
  return [...new Set([...rows.flatMap((row) => [...mainsOf(row), ...row.also]), ...ALWAYS_OPEN])]
}

/** Whether two commands can be listened for at the same moment. While a question is open only its answers are. */
export function openTogether(a: string, b: string): boolean {
  if (ANSWERS.has(a) || ANSWERS.has(b)) {
    return [a, b].every(
      (key) => ANSWERS.has(key) || (ALWAYS_OPEN as readonly string[]).includes(key),
    )
  }
  return ANYWHERE.has(a) || ANYWHERE.has(b) || ROWS.some((row) => row.has(a) && row.has(b))
}
