import { useId, useState } from 'react'
import type { FiguresView } from '../../app/figures/figuresView.ts'
import { layDay } from '../../core/figures/layDay.ts'
import type { StripDrawing } from '../../core/record/stripDrawing.ts'
import { stripSvg } from '../../core/record/stripSvg.ts'
import { StripPicture } from '../pictures/RulerStrip.tsx'
import { useActions, useServices } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { useFigureTexts } from './useFigureTexts.ts'

/** Wide enough for ten minutes, and for a page laid on its side. */
const WIDTH = 1040
/** More draws of one day are more than a person can hold beside each other. */
const MOST_n = 60

interface DaySectionProps {
  readonly read: FiguresView['read']
  readonly isPractice: boolean
}

interface Shown {
  readonly day: string
  readonly drawing: StripDrawing
}

/** The draws of a day under each other, to look at and to take along. */
export function DaySection({ read, isPractice }: DaySectionProps) {
  const actions = useActions()
  const { page } = useServices()
  const { texts, fill, day: dayText } = useFigureTexts()
  const { dayPicture: words } = texts
  const id = useId()
  const days = daysOf(read, isPractice)
  const [chosen, setChosen] = useState('')
  const [shown, setShown] = useState<Shown | undefined>()
  const newest = [...days.keys()].sort().reverse()
  const day = days.has(chosen) ? chosen : (newest[0] ?? '')
  const show = async (): Promise<void> => {
    const strips = await actions.figures.strips((days.get(day) ?? []).slice(0, MOST_n))
    setShown({ day, drawing: layDay(strips, words, WIDTH) })
  }
  const save = ({ day: of, drawing }: Shown): void =>
    page.saveText({
      name: fill(words.fileName, { day: of }),
      type: 'image/svg+xml',
      text: stripSvg(drawing, [
        fill(words.head, { day: dayText(of) }),
        ...(isPractice ? [words.practice] : []),
      ]),
    })
  if (newest.length === 0) return null
  return (
    <section className="figureCard isWide" aria-labelledby={id}>
      <div className="figureWords">
        <h2 id={id}>{words.title}</h2>
        <p className="soft">{words.about}</p>
      </div>
      <div className="dayChoice noPrint">
        <SelectField
          label={words.day}
          options={newest}
          nameOf={dayText}
          value={day}
          onChange={setChosen}
        />
        <div className="rowOfButtons">
          <button type="button" className="button" onClick={() => void show()}>
            {words.show}
          </button>
          {shown && (
            <button type="button" className="button" onClick={() => save(shown)}>
              {words.save}
            </button>
          )}
        </div>
      </div>
      {shown && shown.drawing.shapes.length > 0 && (
        <>
          <h3>{fill(words.head, { day: dayText(shown.day) })}</h3>
          <div
            className="dayPicture rulerStrip"
            role="region"
            aria-label={fill(words.head, { day: dayText(shown.day) })}
            tabIndex={0}
          >
            <StripPicture drawing={shown.drawing} />
          </div>
        </>
      )}
    </section>
  )
}

/** Ids of the draws by their local day, in the order in which they were opened. */
function daysOf(
  read: FiguresView['read'],
  isPractice: boolean,
): ReadonlyMap<string, readonly string[]> {
  const days = new Map<string, string[]>()
  const measured = [...read.values()]
    .flatMap((each) => (each.kind === 'measured' ? [each.measures] : []))
    .filter(({ practice }) => practice === isPractice)
    .sort((a, b) => a.opened_ms - b.opened_ms)
  for (const { day, drawId } of measured) days.set(day, [...(days.get(day) ?? []), drawId])
  return days
}
