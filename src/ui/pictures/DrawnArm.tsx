import { useId } from 'react'
import type { Arm } from '../../core/order/order.ts'
import { HatchPattern } from './HatchPattern.tsx'

interface DrawnArmProps {
  readonly arm: Arm
  readonly isClosed: boolean
  /** Fingers down, as the arm of a patient whom one faces; else it lies with the fingers to the right. */
  readonly isUpright?: boolean
}

/** A left forearm with its palm up and the fingers to the right, so the thumb is above; units of the drawing. */
const OUTLINE = [
  'M0 38 C50 30 84 44 120 36 C186 24 300 52 386 66',
  'C402 68 414 50 432 34 C448 20 470 10 482 15 C492 20 488 30 475 36 C460 44 452 56 448 66',
  'C464 60 482 58 500 58 L566 54 C581 54 581 74 566 74 L508 79',
  'L584 78 C600 79 600 99 584 99 L510 101',
  'L578 104 C593 106 592 123 577 122 L506 121',
  'L556 129 C570 132 566 147 552 145 L498 141 C470 148 430 146 386 134',
  'C300 150 190 178 120 164 C84 157 50 168 0 162',
].join(' ')
const CREASES = 'M92 62 C102 86 102 116 92 140 M388 76 C394 92 394 108 388 124'
/** The thumb's side, the little finger's, and the one that goes across between them at the elbow. */
const VEINS = [
  'M0 62 C60 58 120 58 186 62 C262 68 330 76 410 74',
  'M0 138 C80 142 150 142 240 136 C300 132 350 126 386 124',
  'M178 62 C146 84 98 118 66 140',
]
const ON_THE_BACK = 'M404 88 C436 92 466 84 498 70 M404 106 C440 108 470 110 502 112'

/** One arm in one ink line, veins as wide bands below it; hatched where it is closed. */
export function DrawnArm({ arm, isClosed, isUpright = false }: DrawnArmProps) {
  const hatch = useId()
  // A right arm is the mirror of a left one; upright the whole is turned a quarter, and the thumb stays outside.
  const mirror = arm === 'right' ? 'translate(0 200) scale(1 -1)' : ''
  const turn = isUpright ? 'translate(200 0) rotate(90) ' : ''
  return (
    <svg
      className={`drawnArm${isUpright ? ' isUpright' : ''}`}
      viewBox={isUpright ? '0 0 200 610' : '0 0 610 200'}
      preserveAspectRatio={isUpright ? 'xMidYMid meet' : 'none'}
      aria-hidden="true"
    >
      <defs>
        <HatchPattern id={hatch} scale={isUpright ? 2.6 : 1} />
      </defs>
      <g transform={`${turn}${mirror}`}>
        <path className="skin" d={OUTLINE} />
        {VEINS.map((d) => (
          <path key={d} className="veinBand" d={d} />
        ))}
        <path className="veinBand onBack" d={ON_THE_BACK} />
        {isClosed && <path className="hatch" d={OUTLINE} fill={`url(#${hatch})`} />}
        <path className="armLine" d={OUTLINE} />
        <path className="crease" d={CREASES} />
      </g>
    </svg>
  )
}
