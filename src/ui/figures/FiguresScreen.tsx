import { useEffect, useState } from 'react'
import { shownFigures } from '../../app/figures/shownFigures.ts'
import { figuresCsv } from '../../app/figures/figuresCsv.ts'
import { SPANS, stretchesTo, type Span } from '../../core/figures/stretches.ts'
import { calendarDate, dayMonthYear } from '../../core/time/format.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { here } from '../shared/here.ts'
import { RadioRow } from '../shared/RadioRow.tsx'
import { useToStart } from '../shared/useToStart.ts'
import { DaySection } from './DaySection.tsx'
import { FillSection } from './FillSection.tsx'
import { LeftOut } from './LeftOut.tsx'
import { PeopleSection } from './PeopleSection.tsx'
import { ProportionCard } from './ProportionCard.tsx'
import { TimeCard } from './TimeCard.tsx'
import { useFigureTexts } from './useFigureTexts.ts'
import './figures.css'

const KINDS = ['patients', 'practice'] as const
type Kind = (typeof KINDS)[number]

/** A day more than the span: days are those of the place of each draw. */
const MARGIN_ms = 2 * 86_400_000

/** What the records on this device come to over a span of time. */
export function FiguresScreen() {
  const actions = useActions()
  const { now_ms, page, site } = useServices()
  const view = useApp((s) => s.figures)
  const draws = useApp((s) => s.draws)
  const { figuresByPerson: byPerson, siteName } = useApp((s) => s.settings)
  const { texts, fill } = useFigureTexts()
  const [span, setSpan] = useState<Span>('weeks')
  const [kind, setKind] = useState<Kind>('patients')
  const [today] = useState(() => calendarDate(here(now_ms())))
  useEffect(() => {
    const [first = today] = stretchesTo(today, span)
    void actions.figures.read(Date.parse(`${first}T00:00:00Z`) - MARGIN_ms)
  }, [actions, draws, span, today])
  const isPractice = kind === 'practice'
  const shown = shownFigures(view, draws, { span, today, isPractice })
  const save = (): void => {
    // Of two tablets of one clinic, whatever each of them speaks.
    const { csv, fileName } = site.recordTexts.figures
    page.saveText({
      name: fill(fileName, { span, today }),
      type: 'text/csv',
      text: figuresCsv(shown, csv, isPractice),
    })
  }
  return (
    <Frame title={texts.title} back={useToStart()}>
      <p className="onPaper">
        <strong>{texts.title}</strong>, {siteName}, {dayMonthYear(today)}
      </p>
      <p className="lead">{texts.about}</p>
      <div className="figureChoice noPrint">
        <RadioRow
          legend={texts.span}
          options={SPANS}
          nameOf={(each) => texts.spans[each]}
          value={span}
          onChange={setSpan}
        />
        <RadioRow
          legend={texts.of}
          options={KINDS}
          nameOf={(each) => texts.kinds[each]}
          value={kind}
          onChange={setKind}
        />
        <div className="rowOfButtons">
          <button type="button" className="button" onClick={save}>
            {texts.save}
          </button>
          <button type="button" className="button" onClick={() => page.print()}>
            {texts.print}
          </button>
        </div>
      </div>
      {isPractice && <p className="warnBox">{texts.practiceMark}</p>}
      <LeftOut shown={shown} reading={view.reading} />
      <div className="figureCards">
        {shown.times.map((figure) => (
          <TimeCard key={figure.id} figure={figure} />
        ))}
        {shown.proportions.map((figure) => (
          <ProportionCard key={figure.id} figure={figure} />
        ))}
        <FillSection fits={shown.fills} />
        <DaySection key={kind} read={view.read} isPractice={isPractice} />
        {byPerson && <PeopleSection people={shown.people} />}
      </div>
    </Frame>
  )
}
