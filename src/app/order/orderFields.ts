/** What an order file can say, all as text and not yet checked. */
export interface OrderFields {
  readonly fullName: string
  readonly birthDate: string
  readonly recordNumber: string
  readonly sex: string
  readonly orderNumber: string
  readonly provider: string
  readonly priority: string
  readonly tests: readonly string[]
}

/** Fields as read, or sentences that say what to mend and where. */
export type FieldsReading =
  | { readonly ok: true; readonly fields: OrderFields }
  | { readonly ok: false; readonly errors: readonly string[] }
