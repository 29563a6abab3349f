/** What skin is cleaned with before a puncture. */
export const ANTISEPTICS = [
  'alcohol',
  'chlorhexidineAlcohol',
  'povidoneIodine',
  'alcoholFree',
] as const
export type Antiseptic = (typeof ANTISEPTICS)[number]
