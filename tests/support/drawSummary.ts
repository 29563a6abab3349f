import type { Additive } from '../../src/core/catalogue/additives.ts'
import type { Consent, DocumentReference, Procedure } from '../../src/core/fhir/resources.ts'

export interface TubeSummary {
  readonly specimenNumber: string | undefined
  readonly tubeCode: string | undefined
  readonly tubeName: string | undefined
  readonly additive: Additive | undefined
  readonly nominal_mL: number | undefined
  readonly drawn_mL: number | undefined
  readonly packet: string | undefined
  readonly short: boolean
  readonly on: string | undefined
  readonly off: string | undefined
  readonly mixed: string | undefined
  readonly spun: string | undefined
  readonly site: string | undefined
  readonly collectorId: string | undefined
  readonly fasted_h: number | undefined
  /** How many tests of the order it serves. */
  readonly tests: number
}

/** As much of a draw as FHIR R4 has elements for. Times are local ISO 8601. */
export interface DrawSummary {
  readonly drawId: string
  readonly invented: boolean
  readonly recorded: string
  readonly fullName: string | undefined
  readonly birthDate: string | undefined
  readonly recordNumber: string | undefined
  readonly sex: string | undefined
  readonly orderNumber: string | undefined
  readonly provider: string | undefined
  readonly priority: string
  readonly tests: readonly string[]
  readonly collectors: readonly {
    readonly id: string | undefined
    readonly initials: string | undefined
    readonly name: string | undefined
  }[]
  readonly status: Procedure['status']
  readonly reason: string | undefined
  readonly needleIn: string | undefined
  readonly needleOut: string | undefined
  readonly sites: readonly string[]
  readonly difficulties: readonly string[]
  /** The last word on it: who agreed and how, where that was said. */
  readonly consent:
    | {
        readonly status: Consent['status']
        readonly at: string
        readonly by: 'patient' | 'guardian' | 'interpreter' | undefined
        readonly form: string | undefined
      }
    | undefined
  /** Stretches of the tourniquet, those to find the vein told apart. */
  readonly bands: readonly {
    readonly search: boolean
    readonly on: string | undefined
    readonly off: string | undefined
  }[]
  readonly tubes: readonly TubeSummary[]
  readonly noteStatus: DocumentReference['docStatus']
}
