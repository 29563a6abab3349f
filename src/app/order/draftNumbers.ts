import type { OrderDraft } from './orderDraft.ts'

export const NUMBER_FIELDS = [
  'weight_kg',
  'haematocrit_pct',
  'fasted_h',
  'earlierDraws_mL',
] as const
export type NumberField = (typeof NUMBER_FIELDS)[number] & keyof OrderDraft

/** Outside these a typing slip is far likelier than a true value. */
export const NUMBER_RANGES: Readonly<
  Record<NumberField, { readonly least: number; readonly most: number }>
> = {
  weight_kg: { least: 0.3, most: 400 },
  haematocrit_pct: { least: 5, most: 80 },
  fasted_h: { least: 0, most: 72 },
  earlierDraws_mL: { least: 0, most: 5000 },
}

export type NumberFault = 'notANumber' | 'notInRange' | 'ambiguous'

/**
 * What is typed into a field of figures, with a comma or a point; `undefined` where nothing is. `1.250` and `1,250` are
 * thousands to one reader and thousandths to another: where both may be meant, neither is taken.
 */
export function readNumber(field: NumberField, typed: string): number | NumberFault | undefined {
  const figures = typed.trim().replace(',', '.')
  if (!figures) return undefined
  if (!/^\d+(\.\d+)?$/.test(figures)) return 'notANumber'
  const { least, most } = NUMBER_RANGES[field]
  const value = Number(figures)
  if (thousandsOf(typed) <= most && value >= least) return 'ambiguous'
  return value >= least && value <= most ? value : 'notInRange'
}

/** What it is where its sign parts thousands; without end where it cannot. */
export const thousandsOf = (typed: string): number =>
  /^[1-9]\d{0,2}[.,]\d{3}$/.test(typed.trim()) ? Number(typed.replace(/\D/g, '')) : Infinity

/** Whether it can still become a number by typing on: `6`, `61,`; not `6O`. */
export const mayBecomeNumber = (typed: string): boolean => /^\s*\d*([.,]\d*)?\s*$/.test(typed)
