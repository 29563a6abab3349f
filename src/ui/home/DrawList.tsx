import { dayAndTime } from '../../core/time/format.ts'
import { useId, useState } from 'react'
import type { AppState } from '../../app/appApi.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'

export type Draw = AppState['draws'][number]

/** So many are shown at first: what is begun stands above "New draw", and a day's draws fit on a few screens. */
const UNFINISHED_n = 3
/** So many come with each press. */
const MORE_n = 50

export interface More {
  readonly left: number
  readonly onMore: () => void
}

/** The first of many, and a way to more of them: two thousand at once would hold every press on a tablet. */
export function useFirst<T>(all: readonly T[], first: number) {
  const [n, setN] = useState(first)
  const left = all.length - n
  const more: More | undefined = left > 0 ? { left, onMore: () => setN(n + MORE_n) } : undefined
  return { shown: all.slice(0, n), more }
}

export function MoreDraws({ left, onMore }: More) {
  const { texts, fill } = useTexts()
  return (
    <button type="button" className="button quiet" onClick={onMore}>
      {fill(texts.home.moreDraws, { n: left })}
    </button>
  )
}

export interface DrawsProps {
  readonly draws: readonly Draw[]
}

interface DrawNameProps {
  readonly draw: Draw
  readonly name: string
}

export function DrawName({ draw, name }: DrawNameProps) {
  const { texts } = useTexts()
  return (
    <span className="drawName">
      <strong>{name}</strong>
      {draw.invented && <span className="tag">{texts.app.invented}</span>}
      <span className="soft figures">{dayAndTime(here(draw.opened_ms))}</span>
    </span>
  )
}

interface UnfinishedProps extends DrawsProps {
  /** Begun to rehearse: apart from patients, and without the weight. */
  readonly practice?: boolean
  readonly named?: boolean
}

/** Draws that were begun and not ended. Of patients, nothing on the first screen stands above them. */
export function UnfinishedDraws({ draws, practice = false, named = true }: UnfinishedProps) {
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { home } = texts
  const { shown, more } = useFirst(draws, UNFINISHED_n)
  const heading = useId()
  const nameOf = ({ drawId, patientName }: Draw): string =>
    named ? patientName : fill(home.nameHidden, { number: drawId })
  if (draws.length === 0) return null
  return (
    <section className={practice ? 'unfinished rehearsal' : 'unfinished'} aria-labelledby={heading}>
      <h2 id={heading}>{practice ? home.unfinishedPractice : home.unfinished}</h2>
      <p>{practice ? home.unfinishedPracticeAbout : home.unfinishedAbout}</p>
      <ul className="bare">
        {shown.map((draw) => (
          <li key={draw.drawId}>
            <DrawName draw={draw} name={nameOf(draw)} />
            <RunningClock drawId={draw.drawId} />
            <button
              type="button"
              className={practice ? 'button' : 'button go'}
              aria-label={fill(home.goOnOf, { name: nameOf(draw) })}
              onClick={() => void actions.go({ name: 'draw', drawId: draw.drawId })}
            >
              {home.goOn}
            </button>
          </li>
        ))}
      </ul>
      {more && <MoreDraws {...more} />}
    </section>
  )
}

/** The clock that matters of a draw that runs here while its screen is not shown; its alarms sound all the same. */
function RunningClock({ drawId }: { readonly drawId: string }) {
  const view = useApp((s) => s.draw)
  if (view?.drawId !== drawId || view.closed || view.elsewhere || !view.mainClock) return null
  const { label, text, says, state } = view.mainClock
  return (
    <p className={`runningClock ${state}`} role="timer" aria-live="off">
      {label} <strong className="figures">{text}</strong> {says}
    </p>
  )
}
