import type { ShownFigures } from '../../app/figures/shownFigures.ts'
import type { FiguresView } from '../../app/figures/figuresView.ts'
import { useFigureTexts } from './useFigureTexts.ts'

interface LeftOutProps {
  readonly shown: ShownFigures
  readonly reading: FiguresView['reading']
}

/** What the figures are of, and every record that is not in them. */
export function LeftOut({ shown, reading }: LeftOutProps) {
  const { texts, fill, day } = useFigureTexts()
  const { draws: n, from, to, open, erased, broken, unread } = shown
  return (
    <div className="leftOut">
      <p role="status">
        {reading
          ? fill(texts.reading, reading)
          : n === 0
            ? texts.none
            : fill(texts.draws, { n, from: day(from), to: day(to) })}
      </p>
      <ul className="bare soft">
        {open > 0 && <li>{fill(texts.open, { n: open })}</li>}
        {broken.length > 0 && (
          <li className="notCounted">
            {fill(texts.broken, { n: broken.length, ids: broken.join(', ') })}
          </li>
        )}
        {unread.length > 0 && (
          <li className="notCounted">
            {fill(texts.unread, { n: unread.length, ids: unread.join(', ') })}
          </li>
        )}
        <li>{erased > 0 ? fill(texts.erased, { n: erased }) : texts.erasedAlways}</li>
      </ul>
    </div>
  )
}
