import { useState } from 'react'
import type { AppState } from '../../app/appApi.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { FileInput } from '../shared/FileInput.tsx'
import { useTexts } from '../shared/useTexts.ts'

type Draw = AppState['draws'][number]

/** So many are shown at first: what is begun stands above "New draw", and a day's draws fit on a few screens. */
const UNFINISHED_n = 3
const EARLIER_n = 20
/** So many come with each press. */
const MORE_n = 50

interface More {
  readonly left: number
  readonly onMore: () => void
}

/** The first of many, and a way to more of them: two thousand at once would hold every press on a tablet. */
function useFirst<T>(all: readonly T[], first: number) {
  const [n, setN] = useState(first)
  const left = all.length - n
  const more: More | undefined = left > 0 ? { left, onMore: () => setN(n + MORE_n) } : undefined
  return { shown: all.slice(0, n), more }
}

function MoreDraws({ left, onMore }: More) {
  const { texts, fill } = useTexts()
  return (
    <button type="button" className="button quiet" onClick={onMore}>
      {fill(texts.home.moreDraws, { n: left })}
    </button>
  )
}

interface DrawsProps {
  readonly draws: readonly Draw[]
}

interface DrawNameProps {
  readonly draw: Draw
  readonly name: string
}

function DrawName({ draw, name }: DrawNameProps) {
  const { texts } = useTexts()
  return (
    <span className="drawName">
      <strong>{name}</strong>
      {draw.invented && <span className="tag">{texts.app.invented}</span>}
      <span className="soft figures">{openedAt(draw, texts.language)}</span>
    </span>
  )
}

const openedAt = ({ opened_ms }: Draw, language: string): string =>
  new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeStyle: 'short' }).format(opened_ms)

/** Draws that were begun and not ended. Nothing on the first screen stands above them. */
export function UnfinishedDraws({ draws }: DrawsProps) {
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { home } = texts
  const { shown, more } = useFirst(draws, UNFINISHED_n)
  if (draws.length === 0) return null
  return (
    <section className="unfinished" aria-labelledby="unfinished">
      <h2 id="unfinished">{home.unfinished}</h2>
      <p>{home.unfinishedAbout}</p>
      <ul className="bare">
        {shown.map((draw) => (
          <li key={draw.drawId}>
            <DrawName draw={draw} name={draw.patientName} />
            <RunningClock drawId={draw.drawId} />
            <button
              type="button"
              className="button go"
              aria-label={fill(home.goOnOf, { name: draw.patientName })}
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

/** Closed draws, newest first. Whoever sits before the screen next need not read who was here: names are asked for. */
export function EarlierDraws({ draws }: DrawsProps) {
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { home } = texts
  const [named, setNamed] = useState(false)
  const { shown, more } = useFirst(draws, EARLIER_n)
  const nameOf = (draw: Draw): string =>
    named || draw.invented ? draw.patientName : fill(home.nameHidden, { number: draw.drawId })
  return (
    <section className="earlier" aria-labelledby="earlier">
      <h2 id="earlier">{home.earlier}</h2>
      {draws.some((draw) => !draw.invented) && (
        <button
          type="button"
          className="button quiet"
          aria-pressed={named}
          onClick={() => setNamed(!named)}
        >
          {named ? home.hideNames : home.showNames}
        </button>
      )}
      {draws.length === 0 ? (
        <p className="soft">{home.noneEarlier}</p>
      ) : (
        <ul className="bare">
          {shown.map((draw) => (
            <li key={draw.drawId}>
              <DrawName draw={draw} name={nameOf(draw)} />
              <button
                type="button"
                className="button"
                aria-label={fill(home.openRecordOf, {
                  name: nameOf(draw),
                  when: openedAt(draw, texts.language),
                })}
                onClick={() => void actions.go({ name: 'chart', drawId: draw.drawId })}
              >
                {home.openRecord}
              </button>
            </li>
          ))}
        </ul>
      )}
      {more && <MoreDraws {...more} />}
      <label className="bringIn">
        {home.bringIn}
        <FileInput
          className="input"
          accept=".json,application/json"
          onFile={(file) => void actions.importLog(file)}
        />
      </label>
    </section>
  )
}
