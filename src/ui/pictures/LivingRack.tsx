import type { RackTubeView } from '../../app/view/drawViewTypes.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { DrawnTube } from './DrawnTube.tsx'
import { HandlingMark } from './HandlingMark.tsx'
import { aroundTurn } from './aroundTurn.ts'
import { tubeForm } from './tubeForm.ts'
import { useWidth } from './useWidth.ts'
import './livingRack.css'

/** Heights of the drawings, px: the tallest tube that waits, and room for the one whose turn it is. */
const DRAWN_px = { wide: 54, narrow: 34 } as const
const LARGER = 1.5
const NARROW_px = 600

/** The tubes in order of draw on a shelf, as they are and as they stand; the one whose turn it is stands larger. */
export function LivingRack({ rack }: { readonly rack: readonly RackTubeView[] }) {
  const { texts, fill } = useTexts()
  const words = useServices().site.texts.pictures.rack
  const [shelf, width] = useWidth<HTMLOListElement>(1140)
  if (rack.length === 0) return null
  const turn = rack.findIndex(({ status }) => status === 'on')
  const next = rack.findIndex(({ status }) => status === 'next')
  const current = turn >= 0 ? turn : next
  const { from, to } = aroundTurn(rack.length, Math.max(0, current), width)
  const tallest = Math.max(...rack.map((tube) => tubeForm(tube.shape, tube.nominal_mL).height))
  const scale = (width < NARROW_px ? DRAWN_px.narrow : DRAWN_px.wide) / tallest
  return (
    <ol className="bare rackStrip livingRack" aria-label={texts.draw.rack} ref={shelf}>
      {from > 0 && <li className="rest">{fill(words.before, { n: from })}</li>}
      {rack.slice(from, to).map((tube) => (
        <OnShelf
          key={tube.id}
          tube={tube}
          of={rack.length}
          isTurn={tube === rack[current]}
          scale={tube === rack[current] ? LARGER * scale : scale}
        />
      ))}
      {to < rack.length && <li className="rest">{fill(words.after, { n: rack.length - to })}</li>}
    </ol>
  )
}

interface OnShelfProps {
  readonly tube: RackTubeView
  readonly of: number
  readonly isTurn: boolean
  readonly scale: number
}

function OnShelf({ tube, of, isTurn, scale }: OnShelfProps) {
  const { fill } = useTexts()
  const { mL } = useUnits()
  const words = useServices().site.texts.pictures.rack
  const { number, status } = tube
  return (
    <li
      className={`${status} ${isTurn ? 'isTurn' : ''}`}
      {...(isTurn && { 'aria-current': 'step' })}
    >
      <DrawnTube tube={tube} scale={scale} />
      <span className="what">
        <span className="which">
          <span className="number figures">
            {isTurn ? fill(words.place, { number, of }) : number}
          </span>{' '}
          <span className="tests">{tube.tests}</span>
        </span>
        <span className="name">
          {isTurn && `${tube.name}, ${mL(tube.fill_mL)} · `}
          {tube.closure}
        </span>
        {tube.handling.map(({ mark, words: say }) => (
          <span key={mark} className="handling">
            <HandlingMark mark={mark} /> {say}
          </span>
        ))}
        <span className="status">
          {tube.statusText}
          {isTurn && tube.filling && <span className="guess"> · {words.byTheClock}</span>}
        </span>
        {tube.isRedrawn && <span className="status">{words.redrawn}</span>}
      </span>
    </li>
  )
}
