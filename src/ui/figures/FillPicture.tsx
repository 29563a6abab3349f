import { shownNumber } from '../../core/basics/shownNumber.ts'
import { scaleLog } from 'd3-scale'
import { symbol, symbolCircle } from 'd3-shape'
import type { FillFit } from '../../core/figures/fillFit.ts'
import { useWidth } from '../pictures/useWidth.ts'
import { useFigureTexts } from './useFigureTexts.ts'
import { useSetText } from './useSetText.ts'

const USUAL_px = 620
const ROW_px = 30
const LINE_px = 16
/** A letter of the labels is about as wide. */
const LETTER_px = 7
const SIDE_px = 24
const TICKS = [0.25, 0.5, 1, 2, 4]

/** One row a set: where half of all ratios lie, and the middle. Twice as long is as far from 1 as half as long. */
export function FillPicture({ fits }: { readonly fits: readonly FillFit[] }) {
  const { texts, fill } = useFigureTexts()
  const setText = useSetText()
  const [box, width] = useWidth<HTMLElement>(USUAL_px)
  const labels = fits.map(({ set }) => inLines(setText(set), (width - 2 * SIDE_px) / LETTER_px))
  const tall = Math.max(1, ...labels.map((lines) => lines.length)) * LINE_px
  const row_px = ROW_px + tall
  const foot = fits.length * row_px + 8
  const x = scaleLog()
    .domain([TICKS[0] ?? 0.25, TICKS.at(-1) ?? 4])
    .range([SIDE_px, width - SIDE_px])
    .clamp(true)
  const said = fits.map((fit) => `${setText(fit.set)}: ${shownNumber(fit.ratio, 2)}`).join('; ')
  return (
    <figure className="chartPicture" ref={box}>
      <svg
        viewBox={`0 0 ${width} ${foot + 24}`}
        role="img"
        aria-label={fill(texts.picture, { title: texts.fills.title, said: `${said}.` })}
      >
        {TICKS.map((tick) => (
          <g key={tick}>
            <line
              className={tick === 1 ? 'center' : 'grid'}
              x1={x(tick)}
              x2={x(tick)}
              y1={0}
              y2={foot}
            />
            <text className="tickText" x={x(tick)} y={foot + 18} textAnchor="middle">
              {tick}
            </text>
          </g>
        ))}
        {fits.map(({ set, ratio, quartiles: [low, high] }, i) => (
          <g key={set}>
            {labels[i]?.map((text, nth) => (
              <text key={nth} className="tickText" x={SIDE_px} y={i * row_px + (nth + 1) * LINE_px}>
                {text}
              </text>
            ))}
            <line
              className="spread"
              x1={x(low)}
              x2={x(high)}
              y1={i * row_px + tall + LINE_px}
              y2={i * row_px + tall + LINE_px}
            />
            <path
              className="point"
              transform={`translate(${x(ratio)},${i * row_px + tall + LINE_px})`}
              d={symbol(symbolCircle, 80)() ?? ''}
            />
          </g>
        ))}
      </svg>
    </figure>
  )
}

/** A label in lines of at most so many letters, broken between words. */
function inLines(text: string, most: number): readonly string[] {
  return text.split(' ').reduce<readonly string[]>((lines, word) => {
    const last = lines.at(-1)
    const longer = last === undefined ? word : `${last} ${word}`
    return last === undefined || longer.length > most
      ? [...lines, word]
      : [...lines.slice(0, -1), longer]
  }, [])
}
