import type { OrderPlace, PlaceKind } from './listedOrder.ts'

/** Where a patient is, in words: `Ward B2`, and `Ward 2, bed 4` where the order says the kind itself. */
export function placeWords(
  { kind, text }: OrderPlace,
  where: Readonly<Record<PlaceKind, string>>,
): string {
  const isSaid = text.toLowerCase().startsWith(where[kind].toLowerCase())
  return isSaid ? text : `${where[kind]} ${text}`.trim()
}
