import { useEffect, useId, useRef, useState } from 'react'
import type { RackTubeView } from '../../app/view/drawViewTypes.ts'
import { closureColor } from '../shared/closureColor.ts'
import { tubeForm, type TubeForm } from './tubeForm.ts'

interface DrawnTubeProps {
  readonly tube: RackTubeView
  /** px of the screen for one unit of the drawing. */
  readonly scale: number
}

/** One tube at scale with its blood, its graduations, the dashed least line and the full line. */
export function DrawnTube({ tube, scale }: DrawnTubeProps) {
  const form = tubeForm(tube.shape, tube.nominal_mL)
  const inside = useId()
  const [first] = useState(tube.status)
  // Once, when it was mixed before these eyes; not when a page is opened on a tube that was mixed long ago.
  const isTurning = tube.status === 'mixed' && first !== 'mixed'
  const width = form.width + 16
  const height = form.height + 4
  return (
    <svg
      className={isTurning ? 'drawnTube turning' : 'drawnTube'}
      viewBox={`${-width / 2} ${-form.height - 2} ${width} ${height}`}
      width={width * scale}
      height={height * scale}
      aria-hidden="true"
    >
      <clipPath id={inside}>
        <path d={form.body} />
      </clipPath>
      <path d={form.body} className="glass" />
      <g clipPath={`url(#${inside})`}>
        <Blood tube={tube} form={form} />
      </g>
      {tube.shape === 'card' ? <Circles /> : <Lines tube={tube} form={form} />}
      <path d={form.body} className={tube.isDiscard ? 'outline isDiscard' : 'outline'} />
      <Cap tube={tube} form={form} />
    </svg>
  )
}

function Blood({ tube, form }: { readonly tube: RackTubeView; readonly form: TubeForm }) {
  const { filling } = tube
  if (filling) return <Rising key={filling.id} filling={filling} full={form.level(tube.fill_mL)} />
  // Nobody said how much: less than the least, and hatched by its dashed edge.
  const isGuess = tube.blood_mL === undefined
  const height = form.level(tube.blood_mL ?? tube.least_mL / 2)
  if (height === 0) return null
  return (
    <rect
      x={-form.width}
      y={-height}
      width={2 * form.width}
      height={height + 2}
      className={isGuess ? 'blood isGuess' : 'blood'}
    />
  )
}

interface RisingProps {
  readonly filling: NonNullable<RackTubeView['filling']>
  readonly full: number
}

/**
 * Rises to the planned mark by itself: its start and its length are given to the browser once, nothing ticks. In steps
 * of a tenth where no motion is wanted.
 */
function Rising({ filling, full }: RisingProps) {
  const rect = useRef<SVGRectElement>(null)
  const [begun_ms] = useState(filling.elapsed_ms)
  const [mayMove] = useState(motionIsWanted)
  const { length_ms, isHeld } = filling
  const rises = mayMove && !isHeld
  useEffect(() => {
    if (!rises) return undefined
    const rise = rect.current?.animate([{ transform: 'scaleY(0)' }, { transform: 'scaleY(1)' }], {
      duration: length_ms,
      delay: -begun_ms,
      fill: 'both',
    })
    return () => rise?.cancel()
  }, [rises, length_ms, begun_ms])
  const share = Math.min(1, filling.elapsed_ms / Math.max(1, length_ms))
  const height = rises ? full : (full * Math.floor(share * 10)) / 10
  return (
    <rect
      ref={rect}
      x={-100}
      y={-height}
      width={200}
      height={height}
      className={isHeld ? 'blood isGuess held' : 'blood isGuess rising'}
    />
  )
}

const motionIsWanted = (): boolean =>
  'animate' in Element.prototype && !matchMedia('(prefers-reduced-motion: reduce)').matches

function Lines({ tube, form }: { readonly tube: RackTubeView; readonly form: TubeForm }) {
  const { half } = form
  const least = -form.level(tube.least_mL)
  const full = -form.level(tube.fill_mL)
  return (
    <>
      {tube.shape !== 'micro' &&
        Array.from({ length: Math.floor(tube.nominal_mL) }, (_, i) => (
          <line
            key={i}
            x1={half - ((i + 1) % 5 === 0 ? 14 : 8)}
            x2={half}
            y1={-form.level(i + 1)}
            y2={-form.level(i + 1)}
            className="graduation"
          />
        ))}
      <line x1={-half} x2={half} y1={full} y2={full} className="full" />
      {tube.least_mL > 0 && (
        <line x1={-half - 8} x2={half + 8} y1={least} y2={least} className="least" />
      )}
    </>
  )
}

/** The circles of a card, each for one drop. */
function Circles() {
  return [-33, -11, 11, 33].map((x) => <circle key={x} cx={x} cy={-30} r={9} className="outline" />)
}

function Cap({ tube, form }: { readonly tube: RackTubeView; readonly form: TubeForm }) {
  const { width, height, y } = form.cap
  if (width === 0) return null
  const color = closureColor(tube.closure)
  return (
    <>
      {tube.shape === 'syringe' && <line x1="0" x2="0" y1={y} y2={y + 40} className="outline" />}
      <rect
        x={-width / 2}
        y={y}
        width={width}
        height={height}
        rx="4"
        className="cap"
        {...(color && { fill: color })}
      />
    </>
  )
}
