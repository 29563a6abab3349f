/** The parts of FHIR R4 (4.0.1) that this app writes. Tests hold them against the published type definitions. */

export interface Coding {
  readonly system: string
  readonly code: string
  readonly display?: string
}

export interface CodeableConcept {
  readonly coding?: readonly Coding[]
  readonly text?: string
}

export interface Reference {
  readonly reference?: string
  /** Where the resource itself is not in the bundle. */
  readonly identifier?: Identifier
  readonly display?: string
}

export interface Identifier {
  readonly type?: CodeableConcept
  readonly system?: string
  readonly value: string
}

export interface Quantity {
  readonly value: number
  readonly unit: string
  readonly system: 'http://unitsofmeasure.org'
  readonly code: string
}

export interface Period {
  readonly start?: string
  readonly end?: string
}

export interface Annotation {
  readonly time?: string
  readonly text: string
}

interface Resource<T extends string> {
  readonly resourceType: T
  readonly id: string
  readonly meta?: { readonly tag: readonly Coding[] }
  readonly text?: Narrative
}

/** The resource in words, for a reader that does not know its fields. */
export interface Narrative {
  readonly status: 'generated'
  readonly div: string
}

/** What is said of a person whom it was not about. */
type Wrong = 'entered-in-error'

export interface Patient extends Resource<'Patient'> {
  readonly identifier?: readonly Identifier[]
  readonly name?: readonly {
    readonly text: string
    readonly family?: string
    readonly given?: readonly string[]
  }[]
  readonly gender?: 'female' | 'male'
  readonly birthDate?: string
}

export interface Practitioner extends Resource<'Practitioner'> {
  readonly identifier: readonly Identifier[]
  readonly name?: readonly { readonly text: string }[]
}

export interface ServiceRequest extends Resource<'ServiceRequest'> {
  readonly identifier: readonly Identifier[]
  readonly requisition?: Identifier
  readonly status: 'active' | 'completed' | Wrong
  readonly intent: 'order'
  readonly priority: 'routine' | 'urgent' | 'asap' | 'stat'
  readonly code?: CodeableConcept
  readonly subject: Reference
  readonly encounter?: Reference
  readonly occurrenceDateTime?: string
  readonly authoredOn?: string
  readonly locationReference?: readonly Reference[]
  readonly requester?: Reference
  readonly specimen?: readonly Reference[]
  readonly reasonCode?: readonly CodeableConcept[]
}

/** Of R4's own extensions those that are written here. */
export interface Extension {
  readonly url: string
  readonly valueCodeableConcept: CodeableConcept
}

/** Why what was ordered was not done, or waits. */
export interface Task extends Resource<'Task'> {
  readonly identifier: readonly Identifier[]
  readonly groupIdentifier?: Identifier
  readonly status: 'cancelled' | 'on-hold' | 'ready' | Wrong
  readonly statusReason: CodeableConcept
  readonly intent: 'order'
  readonly code?: CodeableConcept
  readonly focus?: Reference
  readonly for: Reference
  readonly authoredOn: string
}

export interface Observation extends Resource<'Observation'> {
  readonly identifier: readonly Identifier[]
  readonly partOf: readonly Reference[]
  readonly status: 'final' | 'preliminary' | Wrong
  readonly code: CodeableConcept
  readonly subject: Reference
  readonly effectivePeriod: Period
  readonly performer: readonly Reference[]
  readonly valueQuantity?: Quantity
  readonly bodySite?: CodeableConcept
}

export interface Specimen extends Resource<'Specimen'> {
  readonly identifier: readonly Identifier[]
  readonly accessionIdentifier?: Identifier
  readonly status: 'available' | 'unsatisfactory' | Wrong
  readonly receivedTime?: string
  readonly type: CodeableConcept
  readonly subject: Reference
  readonly request?: readonly Reference[]
  readonly collection: {
    /** R4 allows the extension for special handling here alone. */
    readonly extension?: readonly Extension[]
    readonly collector: Reference
    readonly collectedDateTime?: string
    readonly collectedPeriod?: Period
    readonly quantity?: Quantity
    readonly method: CodeableConcept
    readonly bodySite?: CodeableConcept
    readonly fastingStatusCodeableConcept?: CodeableConcept
    readonly fastingStatusDuration?: Quantity
  }
  readonly processing?: readonly {
    readonly description: string
    readonly procedure?: CodeableConcept
    readonly timeDateTime?: string
    readonly timePeriod?: Period
  }[]
  readonly container: readonly {
    readonly description?: string
    readonly type: CodeableConcept
    readonly capacity?: Quantity
    readonly specimenQuantity?: Quantity
    readonly additiveCodeableConcept: CodeableConcept
  }[]
  readonly condition?: readonly CodeableConcept[]
  readonly note?: readonly Annotation[]
}

export interface Procedure extends Resource<'Procedure'> {
  readonly identifier: readonly Identifier[]
  readonly partOf?: readonly Reference[]
  readonly basedOn?: readonly Reference[]
  readonly status: 'in-progress' | 'completed' | 'stopped' | 'not-done' | Wrong
  readonly statusReason?: CodeableConcept
  readonly code: CodeableConcept
  readonly subject: Reference
  readonly encounter?: Reference
  readonly location?: Reference
  readonly performedPeriod?: Period
  readonly performer: readonly { readonly actor: Reference }[]
  readonly reasonCode?: readonly CodeableConcept[]
  readonly bodySite?: readonly CodeableConcept[]
  readonly complication?: readonly CodeableConcept[]
  readonly followUp?: readonly CodeableConcept[]
  readonly usedCode?: readonly CodeableConcept[]
  readonly note?: readonly Annotation[]
}

/** An agreement to the draw, a no, or one that was taken back. */
export interface Consent extends Resource<'Consent'> {
  readonly identifier: readonly Identifier[]
  readonly status: 'active' | 'rejected' | 'inactive' | Wrong
  readonly scope: CodeableConcept
  readonly category: readonly CodeableConcept[]
  readonly patient: Reference
  readonly dateTime: string
  readonly performer?: readonly Reference[]
  readonly sourceReference: Reference
  readonly policyRule: CodeableConcept
  readonly provision: { readonly type: 'permit' | 'deny'; readonly period?: Period }
}

export interface Provenance extends Resource<'Provenance'> {
  readonly target: readonly Reference[]
  readonly occurredPeriod?: Period
  readonly recorded: string
  readonly agent: readonly { readonly type: CodeableConcept; readonly who: Reference }[]
  readonly entity: readonly {
    readonly role: 'source'
    readonly what: { readonly identifier: Identifier; readonly display: string }
  }[]
}

export interface AuditEvent extends Resource<'AuditEvent'> {
  readonly type: Coding
  readonly action: 'C' | 'U'
  readonly period?: Period
  readonly recorded: string
  readonly outcome: '0'
  readonly purposeOfEvent?: readonly CodeableConcept[]
  readonly agent: readonly { readonly who: Reference; readonly requestor: boolean }[]
  readonly source: { readonly site?: string; readonly observer: Reference }
  readonly entity: readonly {
    readonly what: Reference
    readonly detail?: readonly { readonly type: string; readonly valueString: string }[]
  }[]
}

export interface DocumentReference extends Resource<'DocumentReference'> {
  readonly identifier: readonly Identifier[]
  readonly status: 'current'
  readonly docStatus: 'preliminary' | 'final' | 'amended'
  readonly type: CodeableConcept
  readonly subject: Reference
  readonly date: string
  readonly author: readonly Reference[]
  readonly content: readonly {
    readonly attachment: {
      readonly contentType: string
      readonly language: string
      readonly data: string
      readonly size: number
      readonly title: string
    }
  }[]
}

export type AnyResource =
  | Patient
  | Practitioner
  | ServiceRequest
  | Specimen
  | Task
  | Observation
  | Procedure
  | Consent
  | Provenance
  | AuditEvent
  | DocumentReference

export interface Bundle {
  readonly resourceType: 'Bundle'
  readonly id: string
  readonly meta?: { readonly tag: readonly Coding[] }
  readonly identifier: Identifier
  readonly type: 'collection'
  readonly timestamp: string
  readonly entry: readonly { readonly fullUrl: string; readonly resource: AnyResource }[]
}
