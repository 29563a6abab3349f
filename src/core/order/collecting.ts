/** How blood is taken: from a vein, or drop by drop from skin that a lancet opened. */
export const COLLECTING = ['venous', 'capillaryFinger', 'capillaryHeel'] as const
export type Collecting = (typeof COLLECTING)[number]
/** What a draw is opened with where it is not from a vein. */
export type SkinPlace = Exclude<Collecting, 'venous'>
export const SKIN_PLACES = [
  'capillaryFinger',
  'capillaryHeel',
] as const satisfies readonly SkinPlace[]
