/**
 * How a specimen must be treated from the moment it is drawn. A tube carries the marks of every test in it.
 * `coolOptional`: ice helps and does no harm, so it may share with what must be iced and with what need not be.
 * `noAir`: filled whole, without a bubble, and never opened.
 * `noAlcohol`: the skin is cleaned with something free of alcohol; it is about the skin, not about the tube.
 * `dryFlat`: laid flat and alone to dry, neither heated nor stacked, before it is sent.
 */
export const HANDLING = [
  'light',
  'ice',
  'warm',
  'upright',
  'roomOnly',
  'traceFree',
  'noAir',
  'coolOptional',
  'noAlcohol',
  'dryFlat',
] as const
export type Handling = (typeof HANDLING)[number]
