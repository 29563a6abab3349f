/** A system that cuts an icon to a shape of its own leaves a circle of two fifths (W3C App Manifest, icon masks). */
export const SAFE_RADIUS = 0.4

export interface Icon {
  readonly name: string
  /** px */
  readonly size: number
  /** Units of the drawing's field. */
  readonly radius: number
  readonly corner: number
}

const ROUNDED = { radius: 23, corner: 14 } as const
/** The system cuts it: the ground fills the square. */
const CUT = { radius: 23, corner: 0 } as const

/** Every picture of the sign in public/icons, beside the drawing itself. */
export const ICONS: readonly Icon[] = [
  { name: 'mark-192.png', size: 192, ...ROUNDED },
  { name: 'mark-512.png', size: 512, ...ROUNDED },
  { name: 'mark-180.png', size: 180, ...CUT },
  { name: 'mask-192.png', size: 192, ...CUT },
  { name: 'mask-512.png', size: 512, ...CUT },
]
export const SVG = { name: 'mark.svg', ...ROUNDED } as const
