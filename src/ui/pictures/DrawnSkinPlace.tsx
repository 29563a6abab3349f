import { useId } from 'react'
import type { SkinPlace } from '../../core/order/collecting.ts'
import type { Arm } from '../../core/order/order.ts'
import { HatchPattern } from './HatchPattern.tsx'
import { SKIN_DRAWINGS } from './skinDrawings.ts'

interface DrawnSkinPlaceProps {
  readonly side: Arm
  readonly place: SkinPlace
  /** Nothing of it is to be used. */
  readonly isClosed: boolean
}

/** A foot or hand in one ink line, hatched where it is not to be lanced. */
export function DrawnSkinPlace({ side: of, place, isClosed }: DrawnSkinPlaceProps) {
  const hatch = useId()
  const { view, twiceMiddle, outline, open, barred, lines } = SKIN_DRAWINGS[place]
  return (
    <svg
      className="drawnArm isUpright drawnSkin"
      viewBox={view}
      preserveAspectRatio="xMidYMid meet"
      aria-hidden="true"
    >
      <defs>
        <HatchPattern id={hatch} scale={1.4} />
      </defs>
      <g transform={of === 'right' ? `translate(${twiceMiddle} 0) scale(-1 1)` : ''}>
        <path className="skin" d={outline} />
        <path
          className="hatch"
          d={isClosed ? `${outline} Z` : place === 'capillaryHeel' ? `${barred} ${open}` : barred}
          fillRule="evenodd"
          fill={`url(#${hatch})`}
        />
        {!isClosed && <path className="crease lanceHere" d={open} />}
        <path className="armLine" d={outline} />
        <path className="crease" d={lines} />
      </g>
    </svg>
  )
}
