import { QUIET_MODULES, type BarcodeModel } from '../../app/record/code128.ts'

/** Width of the narrowest bar, mm: a quarter is about 10 mil, two dots of a 203 dpi printer. */
const MODULE_mm = 0.25
/** Room for bars and quiet zones on a 2 inch label, mm. */
const ROOM_mm = 47.8

interface BarcodeProps {
  readonly barcode: BarcodeModel
  /** What it says, for who cannot see it. */
  readonly name: string
  readonly height_mm?: number
}

/** Code 128 as plain rectangles, black on white whatever the colors of the screen are. */
export function Barcode({ barcode, name, height_mm = 6.5 }: BarcodeProps) {
  const width = barcode.modules + 2 * QUIET_MODULES
  const module_mm = Math.min(MODULE_mm, ROOM_mm / width)
  return (
    <svg
      className="barcode"
      role="img"
      aria-label={name}
      viewBox={`0 0 ${width} 10`}
      width={`${(width * module_mm).toFixed(2)}mm`}
      height={`${height_mm}mm`}
      preserveAspectRatio="none"
      shapeRendering="crispEdges"
    >
      <rect x="0" y="0" width={width} height="10" fill="#fff" />
      {barcode.bars.map((bar) => (
        <rect
          key={bar.x}
          x={bar.x + QUIET_MODULES}
          y="0"
          width={bar.width}
          height="10"
          fill="#000"
        />
      ))}
    </svg>
  )
}
