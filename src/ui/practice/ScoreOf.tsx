import type { ScoredPractice } from '../../app/figures/scorePracticeDraw.ts'
import type { RulerStrip } from '../../core/record/rulerStrip.ts'
import type { ScoredAct } from '../../core/scenario/scorePractice.ts'
import { FigureTable } from '../figures/FigureTable.tsx'
import { useFigureTexts } from '../figures/useFigureTexts.ts'
import { useServices } from '../shared/appContext.tsx'
import { useActName } from './useActName.ts'
import '../figures/figures.css'

interface ScoreOfProps {
  readonly scored: ScoredPractice
  /** Knows the tubes by their names. */
  readonly strip: RulerStrip
}

/** The points, which are missing and why, and the table of every act. */
export function ScoreOf({ scored, strip }: ScoreOfProps) {
  const { texts, fill } = useFigureTexts()
  const { flags } = useServices().site.words
  const { score: words } = texts
  const { title, score } = scored
  const { acts, besides, points, of, isTimeKnown } = score
  const nameOf = useActName(strip)
  const timed = acts.filter(({ time }) => time)
  const done = acts.filter(({ isDone }) => isDone)
  const part = (n: number, most: number): string => fill(words.partOf, { n, of: most })
  const lost = [
    ...acts.flatMap((act) => lostOf(act).map((flag) => ({ act: nameOf(act.event), flag }))),
  ].map(({ act, flag }) =>
    flag === undefined
      ? fill(words.lostDone, { act })
      : fill(words.lost, { act, why: flags[flag] }),
  )
  const all = [...lost, ...besides.map((flag) => fill(words.besides, { why: flags[flag] }))]
  return (
    <>
      <p className="lead figures">{fill(words.points, { points, of, title })}</p>
      <p className="soft">{words.about}</p>
      {!isTimeKnown && <p>{words.clock}</p>}
      <dl className="scoreParts figures">
        <dt>{words.parts.done}</dt>
        <dd>{part(done.length, acts.length)}</dd>
        <dt>{words.parts.order}</dt>
        <dd>{part(done.filter(({ order }) => order.length === 0).length, acts.length)}</dd>
        <dt>{words.parts.time}</dt>
        <dd>
          {part(
            timed.filter(({ isDone, time = [] }) => isDone && time.length === 0).length,
            timed.length,
          )}
        </dd>
      </dl>
      <h2>{words.lostTitle}</h2>
      {all.length === 0 ? (
        <p>{words.noneLost}</p>
      ) : (
        <ol className="lostPoints">
          {all.map((line, i) => (
            <li key={i}>{line}</li>
          ))}
        </ol>
      )}
      <FigureTable
        name={words.table}
        columns={[words.act, words.parts.done, words.parts.order, words.parts.time]}
        rows={acts.map(({ event, isDone, order, time }) => {
          const told = (faults: ScoredAct['order']): string =>
            !isDone ? words.notDone : faults.map((flag) => flags[flag]).join(' ') || words.yes
          return [
            nameOf(event),
            isDone ? words.yes : words.notDone,
            told(order),
            time ? told(time) : words.noTime,
          ]
        })}
      />
    </>
  )
}

/** `undefined` stands for not done at all. */
const lostOf = ({ isDone, order, time = [] }: ScoredAct) =>
  isDone ? [...order, ...time] : [undefined]
