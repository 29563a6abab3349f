/** What reading or checking gives: a value, or every fault found, in the order in which a person would meet them. */
export type Result<T, F = string> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly faults: readonly F[] }

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value })

export const faulty = <F>(
  faults: readonly F[],
): { readonly ok: false; readonly faults: readonly F[] } => ({ ok: false, faults })

/** What could be made of something with faults in it: a value to go on with, and what was wrong. */
export interface Salvaged<T, F = string> {
  readonly value: T
  readonly faults: readonly F[]
}
