import type { DrawEvent } from '../protocol/events.ts'

/**
 * True for what is about the person who drew and not about the patient: it stays out of the patient's record, in words
 * and on the ruler.
 */
export function isOfExposure(event: DrawEvent): boolean {
  switch (event.type) {
    case 'exceptionRaised':
    case 'exceptionEnded':
      return event.kind === 'needlestick'
    // Only whoever was stuck is freed by a colleague at once; the name that follows tells the patient's record of it.
    case 'exposureNoted':
    case 'colleagueTook':
      return true
    default:
      return false
  }
}
