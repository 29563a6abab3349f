import { useId } from 'react'
import { layStrip } from '../../core/record/layStrip.ts'
import type { RulerStrip as Strip } from '../../core/record/rulerStrip.ts'
import type { StripDrawing, StripShape } from '../../core/record/stripDrawing.ts'
import { useServices } from '../shared/appContext.tsx'
import { closureColor } from '../shared/closureColor.ts'
import { useWidth } from './useWidth.ts'
import './rulerStrip.css'

interface RulerStripProps {
  readonly strip: Strip
  /** `whole` with its words, over the width there is; `row` small and without them, with the outcome beside it. */
  readonly size: 'whole' | 'row'
}

const USUAL_px = { whole: 960, row: 260 } as const

/** A draw as one strip along the ruler: tubes, needle, band, and what happened, each with its word. */
export function RulerStrip({ strip, size }: RulerStripProps) {
  const { pictures, note } = useServices().site.texts
  const [box, width] = useWidth<HTMLElement>(USUAL_px[size])
  const hasWords = size === 'whole'
  const words = { strip: pictures.strip, note }
  const drawing = layStrip(strip, words, { width: hasWords ? width : USUAL_px.row, hasWords })
  const outcome = pictures.strip.outcomes[strip.outcome ?? 'notClosed']
  return (
    <figure className={`rulerStrip ${size}`} ref={box}>
      <StripPicture drawing={drawing} />
      {!hasWords && <figcaption>{outcome}</figcaption>}
    </figure>
  )
}

/** A drawing of the ruler as it is laid. */
export function StripPicture({ drawing }: { readonly drawing: StripDrawing }) {
  const hatch = useId()
  return (
    <svg
      viewBox={`0 -14 ${drawing.width} ${drawing.height + 14}`}
      role="img"
      aria-label={drawing.about}
    >
      <pattern
        id={hatch}
        width="6"
        height="6"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect width="6" height="6" className="hatchGround" />
        <path d="M0 0V6" className="hatchLine" />
      </pattern>
      {drawing.shapes.map((shape, i) => (
        <Shape key={i} shape={shape} hatch={`url(#${hatch})`} />
      ))}
    </svg>
  )
}

function Shape({ shape, hatch }: { readonly shape: StripShape; readonly hatch: string }) {
  switch (shape.kind) {
    case 'line': {
      const { x1, y1, x2, y2 } = shape
      return <line x1={x1} y1={y1} x2={x2} y2={y2} className={shape.look} />
    }
    case 'path':
      return <path d={shape.d} className={shape.look} />
    case 'text':
      return (
        <text
          x={shape.x}
          y={shape.y}
          className={shape.look}
          {...(shape.middle && { textAnchor: 'middle' })}
        >
          {shape.text}
        </text>
      )
    case 'bar': {
      const isHatched = shape.look === 'over' || shape.look === 'lostTube'
      const paint = isHatched ? hatch : shape.look === 'tube' && closureColor(shape.closure ?? '')
      return (
        <rect
          x={shape.x}
          y={shape.y}
          width={shape.width}
          height={shape.height}
          rx={shape.look === 'tube' ? 3 : 0}
          className={shape.isOpen ? `${shape.look} isOpen` : shape.look}
          {...(paint && { fill: paint })}
        />
      )
    }
  }
}
