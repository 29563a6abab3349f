import { plannedFill_mL, type Plan } from '../../core/plan/plan.ts'
import { closureColor } from '../shared/closureColor.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'

type Tube = Plan['tubes'][number]

const PX_PER_mL = 18
const HEAD_px = 64
const COLUMN_px = { least: 112, most: 208, page: 1040 } as const
/** A letter of a name takes about so much of its column. */
const LETTER_px = 7.8

/** The rack in order of draw. One graduation is one mL in every tube, so that volumes compare by eye. */
export function RackPicture({ tubes }: { readonly tubes: readonly Tube[] }) {
  const { texts } = useTexts()
  const { mL } = useUnits()
  const { least, most, page } = COLUMN_px
  const column = Math.max(least, Math.min(most, Math.floor(page / tubes.length)))
  const width = tubes.length * column
  const bottom = HEAD_px + PX_PER_mL * Math.max(...tubes.map((tube) => tube.nominal_mL))
  const names = tubes.map(({ name }) => linesOf(name, column / LETTER_px))
  const lines_n = Math.max(...names.map(({ length }) => length))
  const height = bottom + 66 + 18 * lines_n
  return (
    <figure className="rackPicture">
      <div className="scroll" tabIndex={0} role="group" aria-label={texts.plan.picture}>
        <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} aria-hidden="true">
          <line x1="0" x2={width} y1={bottom + 6} y2={bottom + 6} className="shelf" />
          {tubes.map((tube, i) => (
            <g key={tube.id} transform={`translate(${(i + 0.5) * column} ${bottom})`}>
              {tube.role === 'culture' ? <Bottle tube={tube} /> : <Tube tube={tube} />}
              <text y={34} className="order">
                {i + 1}
              </text>
              {(names[i] ?? []).map((line, row) => (
                <text key={row} y={57 + 18 * row} className="name">
                  {line}
                </text>
              ))}
              <text y={60 + 18 * lines_n} className="volume">
                {mL(plannedFill_mL(tube))}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <figcaption className="small soft">{texts.plan.pictureAbout}</figcaption>
    </figure>
  )
}

/** A name in lines of about so many letters, broken between words; the last takes what is left. */
function linesOf(name: string, letters: number): readonly string[] {
  return name.split(' ').reduce<readonly string[]>((lines, word) => {
    const last = lines.at(-1)
    if (last === undefined || last.length + word.length + 1 > letters) return [...lines, word]
    return [...lines.slice(0, -1), `${last} ${word}`]
  }, [])
}

function Tube({ tube }: { readonly tube: Tube }) {
  const half = 19
  const blood = plannedFill_mL(tube) * PX_PER_mL
  const glass = tube.nominal_mL * PX_PER_mL + 24
  const round = half
  const body = (height: number): string =>
    `M${-half} ${-height}h${2 * half}v${height - round}a${round} ${round} 0 0 1 ${-2 * half} 0z`
  const hatched = tube.role === 'discard'
  return (
    <g>
      <path d={body(glass)} className="glass" />
      <path d={body(Math.max(blood, round))} className={hatched ? 'blood discard' : 'blood'} />
      <Marks tube={tube} left={-half} right={half} />
      <path d={body(glass)} className="outline" />
      <Cap tube={tube} left={-half - 4} width={2 * half + 8} bottom={-glass} />
    </g>
  )
}

function Bottle({ tube }: { readonly tube: Tube }) {
  const half = 36
  const blood = tube.nominal_mL * PX_PER_mL
  const shoulder = blood + 8
  const outline = `M${-half} ${-shoulder}q0 -20 22 -22v-8h${2 * half - 44}v8q22 2 22 22v${shoulder - 6}q0 6 -6 6h${12 - 2 * half}q-6 0 -6 -6z`
  return (
    <g>
      <path d={outline} className="glass" />
      <rect x={-half} y={-blood} width={2 * half} height={blood} rx="5" className="blood" />
      <Marks tube={tube} left={-half} right={half} />
      <path d={outline} className="outline" />
      <Cap tube={tube} left={-18} width={36} bottom={-shoulder - 30} />
    </g>
  )
}

interface MarksProps {
  readonly tube: Tube
  readonly left: number
  readonly right: number
}

function Marks({ tube, left, right }: MarksProps) {
  const least = -tube.least_mL * PX_PER_mL
  return (
    <>
      {Array.from({ length: Math.floor(tube.nominal_mL) }, (_, i) => (
        <line
          key={i}
          x1={right - ((i + 1) % 5 === 0 ? 14 : 8)}
          x2={right}
          y1={-(i + 1) * PX_PER_mL}
          y2={-(i + 1) * PX_PER_mL}
          className="graduation"
        />
      ))}
      {tube.least_mL > 0 && (
        <line x1={left - 6} x2={right + 6} y1={least} y2={least} className="least" />
      )}
    </>
  )
}

interface CapProps {
  readonly tube: Tube
  readonly left: number
  readonly width: number
  readonly bottom: number
}

function Cap({ tube, left, width, bottom }: CapProps) {
  const color = closureColor(tube.closure)
  return (
    <rect
      x={left}
      y={bottom - 22}
      width={width}
      height="26"
      rx="4"
      className="cap"
      {...(color && { fill: color })}
    />
  )
}
