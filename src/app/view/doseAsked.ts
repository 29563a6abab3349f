import type { DrawState } from '../../core/protocol/state.ts'

/** Id of the series of which this draw has a sample before a dose, while nobody told when that dose is due. */
export function doseAsked({ opened: { sitting }, moments }: DrawState): string | undefined {
  const isBefore = sitting?.parts.some(({ from }) => from === 'nextDose') === true
  const isTold = moments.some(({ moment }) => moment === 'nextDose')
  return isBefore && !isTold ? sitting.series || undefined : undefined
}
