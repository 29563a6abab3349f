/** What is looked for on a screen; each has a fault of its own in `seededFaults.ts`. */
export const MEASURES = [
  'covered',
  'outside',
  'scrolled',
  'cut',
  'coveredText',
  'overlap',
  'tall',
  'wide',
  'mainMoved',
  'smallInstruction',
  'contrast',
  'edge',
  'target',
  'empty',
] as const
export type Measure = (typeof MEASURES)[number]

/** One thing that is wrong on one screen. */
export interface Finding {
  readonly measure: Measure
  /** Where, as a short selector. */
  readonly selector: string
  /** What, for a reader: the words concerned and the figures. */
  readonly says: string
  /** Figures in CSS px, or of a ratio. */
  readonly figures: Readonly<Record<string, number>>
}

export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

export const round1 = (value: number): number => Math.round(value * 10) / 10
