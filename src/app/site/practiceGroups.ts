import type { NamedScenario } from './readScenarios.ts'

/** What a practice draw trains, in the order of the list. */
export const PRACTICE_GROUPS = [
  'whole',
  'identity',
  'consent',
  'vein',
  'tubes',
  'patient',
  'collector',
  'heel',
  'device',
  'other',
] as const
export type PracticeGroup = (typeof PRACTICE_GROUPS)[number]

/** Scripts by the name of their file; one that stands nowhere is found under `other`. */
const SCRIPTS: Readonly<Record<Exclude<PracticeGroup, 'other'>, readonly string[]>> = {
  whole: ['straight-draw', 'second-attempt', 'third-attempt', 'timed-series', 'whole-series'],
  identity: [
    'wrong-patient',
    'wrong-patient-late',
    'wristband',
    'wristband-differs',
    'wristband-decided',
    'wrong-label',
    'unlabelled-tube',
    'unlabelled-voice',
  ],
  consent: [
    'consent-refused',
    'consent-withdrawn',
    'not-prepared-go-on',
    'not-prepared-stop',
    'over-limit',
  ],
  vein: [
    'restricted-arm',
    'both-arms',
    'closed-arm',
    'closed-arm-used',
    'drip-seen',
    'clean-again',
    'no-flash',
    'band-over',
    'band-too-soon',
    'needle-out-band-on',
    'bright-blood',
  ],
  tubes: [
    'slow-flow',
    'flow-lost',
    'no-vacuum',
    'empty-tube',
    'short-fill',
    'wrong-tube',
    'expired-tube',
    'dropped-tube',
    'tube-fell-whole',
    'on-ice',
    'syringe',
    'syringe-late',
  ],
  patient: [
    'faint-before',
    'faint-with-needle',
    'faint-after',
    'nausea',
    'sharp-pain',
    'swelling',
    'bleeding-continues',
    'pressed-too-briefly',
    'stop-everything',
  ],
  collector: ['needlestick', 'handover', 'two-attempts-handover', 'interrupted', 'go-back'],
  heel: [
    'heel',
    'heel-two-tries',
    'finger-slow',
    'finger-to-vein',
    'newborn-card',
    'newborn-card-early',
  ],
  device: ['clock-set-back', 'computer-sleeps', 'reload'],
}

/** What the script of that name trains. */
export const practiceGroupOf = (id: string): PracticeGroup =>
  PRACTICE_GROUPS.find((group) => group !== 'other' && SCRIPTS[group].includes(id)) ?? 'other'

/** Those in whose title or description a word begins with each word that was typed. */
export function findPractice(
  scenarios: readonly NamedScenario[],
  typed: string,
): readonly NamedScenario[] {
  const wanted = wordsOf(typed)
  return scenarios.filter(({ scenario: { title, about } }) => {
    const words = wordsOf(`${title} ${about}`)
    return wanted.every((start) => words.some((word) => word.startsWith(start)))
  })
}

const wordsOf = (text: string): readonly string[] =>
  text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []
