import type { Additive } from '../../core/catalogue/additives.ts'
import type { Handling } from '../../core/catalogue/handling.ts'
import type { FillWindow } from '../../core/flow/fillWindow.ts'

export const ADDITIVE_WORDS: Readonly<Record<Additive, string>> = {
  cultureAerobic: 'culture broth, aerobic',
  cultureAnaerobic: 'culture broth, anaerobic',
  citrate: 'sodium citrate',
  plain: 'no additive',
  activator: 'clot activator',
  activatorGel: 'clot activator and gel',
  thrombin: 'thrombin',
  heparinLithium: 'lithium heparin',
  heparinLithiumGel: 'lithium heparin and gel',
  heparinSodium: 'sodium heparin',
  edtaK2: 'K2 EDTA',
  edtaK3: 'K3 EDTA',
  edtaK2Gel: 'K2 EDTA and gel',
  fluorideOxalate: 'fluoride and oxalate',
  fluorideCitrate: 'fluoride and citrate',
  acd: 'acid citrate dextrose',
  traceActivator: 'clot activator, trace-element free',
  traceEdta: 'EDTA, trace-element free',
}

export const HANDLING_WORDS: Readonly<Record<Handling, string>> = {
  light: 'Keep from light',
  ice: 'On ice at once',
  warm: 'Keep warm, 37 °C',
  upright: 'Stand upright',
  roomOnly: 'Room temperature only',
  traceFree: 'Trace-element care',
}

/** `4`, `4.5`, `2.75`: no more places than the figure has. */
export function mL(volume_mL: number): string {
  return `${Number(volume_mL.toFixed(2))} mL`
}

/** `5 to 8 s`. */
export function fillWords(fill: FillWindow): string {
  const [early, late] = [Math.round(fill.early_s), Math.round(fill.late_s)]
  return early === late ? `about ${late} s` : `${early} to ${late} s`
}

/** `8 to 10 times`, `not at all`. */
export function inversionWords({
  min,
  max,
}: {
  readonly min: number
  readonly max: number
}): string {
  if (max === 0) return 'not needed'
  return min === max ? `${min} times` : `${min} to ${max} times`
}

/** `90 min`, `8 h`. */
export function minutes(length_min: number): string {
  return length_min >= 120 && length_min % 60 === 0 ? `${length_min / 60} h` : `${length_min} min`
}

/** `3 tubes`, `1 tube`. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`
}
