import { scaleLinear, scalePoint } from 'd3-scale'
import { curveStep, line, symbol, symbolCircle, symbolDiamond } from 'd3-shape'
import { useWidth } from '../pictures/useWidth.ts'
import { useFigureTexts } from './useFigureTexts.ts'

interface ChartPoint {
  /** First day of the stretch. */
  readonly from: string
  readonly value: number | undefined
  readonly lower: number | undefined
  readonly upper: number | undefined
  readonly isOut: boolean
}

/** Points in their order with the limits of each, and the middle of all. */
export interface Chart {
  readonly points: readonly ChartPoint[]
  readonly center: number | undefined
  readonly format: (value: number) => string
  /** The scale reaches so far at least, so that little does not look like much. */
  readonly least_top: number
}

interface ChartPictureProps {
  readonly chart: Chart
  /** What it shows in one sentence, for who does not see it. */
  readonly about: string
}

const USUAL_px = 620
const HEIGHT_px = 230
const ROOM = { top: 12, right: 14, bottom: 30, left: 62 }
/** A date needs so much room below the axis. */
const DATE_px = 108

/** The points joined by a line, with their limits as steps. What is beyond its limits has another shape. */
export function ChartPicture({ chart, about }: ChartPictureProps) {
  const { texts, day } = useFigureTexts()
  const [box, width] = useWidth<HTMLElement>(USUAL_px)
  const { points, center, format, least_top } = chart
  const tops = points.flatMap(({ value, upper }) => [value ?? 0, upper ?? 0])
  const y = scaleLinear()
    .domain([0, Math.max(least_top, ...tops)])
    .nice(4)
    .range([HEIGHT_px - ROOM.bottom, ROOM.top])
  const x = scalePoint<number>()
    .domain(points.map((_, i) => i))
    .range([ROOM.left, width - ROOM.right])
    .padding(0.5)
  const at = (i: number): number => x(i) ?? ROOM.left
  const path = (of: (point: ChartPoint) => number | undefined, isStep = false): string => {
    const shape = line<ChartPoint>()
      .defined((point) => of(point) !== undefined)
      .x((_, i) => at(i))
      .y((point) => y(of(point) ?? 0))
    return (isStep ? shape.curve(curveStep) : shape)([...points]) ?? ''
  }
  const every = Math.max(1, Math.ceil((points.length * DATE_px) / (width - ROOM.left)))
  const hasLimits = points.some(({ upper }) => upper !== undefined)
  const hasOut = points.some(({ isOut }) => isOut)
  return (
    <figure className="chartPicture" ref={box}>
      <svg viewBox={`0 0 ${width} ${HEIGHT_px}`} role="img" aria-label={about}>
        {y.ticks(4).map((tick) => (
          <g key={tick}>
            <line
              className="grid"
              x1={ROOM.left}
              x2={width - ROOM.right}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text className="tickText" x={ROOM.left - 8} y={y(tick) + 4} textAnchor="end">
              {format(tick)}
            </text>
          </g>
        ))}
        {points.map(({ from }, i) =>
          i % every === 0 ? (
            <text
              key={from}
              className="tickText"
              x={at(i)}
              y={HEIGHT_px - 8}
              textAnchor={at(i) < DATE_px / 2 ? 'start' : 'middle'}
            >
              {day(from)}
            </text>
          ) : null,
        )}
        <path className="limit" d={path(({ upper }) => upper, true)} />
        <path className="limit" d={path(({ lower }) => lower, true)} />
        {center !== undefined && (
          <line
            className="center"
            x1={ROOM.left}
            x2={width - ROOM.right}
            y1={y(center)}
            y2={y(center)}
          />
        )}
        <path className="course" d={path(({ value }) => value)} />
        {points.map(({ from, value, isOut }, i) =>
          value === undefined ? null : (
            <path
              key={from}
              className={isOut ? 'point isOut' : 'point'}
              transform={`translate(${at(i)},${y(value)})`}
              d={symbol(isOut ? symbolDiamond : symbolCircle, isOut ? 150 : 38)() ?? ''}
            />
          ),
        )}
      </svg>
      <figcaption className="soft small">
        <span className="keyPoint">{texts.legend.points}</span>
        {center !== undefined && <span className="keyCenter">{texts.legend.center}</span>}
        {hasLimits && <span className="keyLimit">{texts.legend.limits}</span>}
        {hasOut && <span className="keyOut">{texts.legend.out}</span>}
      </figcaption>
    </figure>
  )
}
