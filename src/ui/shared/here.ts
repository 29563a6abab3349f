/** A moment in the time of this device, for the formats of `core/time`. @param at_ms ms since 1970 UTC */
export function here(at_ms: number): { readonly at_ms: number; readonly offset_min: number } {
  return { at_ms, offset_min: offsetHere(at_ms) }
}

/** Minutes east of UTC of this device's local time at a moment. */
export const offsetHere = (at_ms: number): number => -new Date(at_ms).getTimezoneOffset()
