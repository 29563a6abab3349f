import type { TextValues } from '../basics/fillText.ts'
import type { TubeFact } from './drawFacts.ts'
import type { RiskFound } from './recordTexts.ts'
import type { RiskCode } from './riskTable.ts'

/** A risk as a rule finds it, before its words. */
export interface FoundRisk {
  readonly code: RiskCode
  readonly tubes: readonly TubeFact[]
  readonly found: RiskFound
  readonly values?: TextValues
}
