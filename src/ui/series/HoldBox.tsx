import { useState } from 'react'
import type { Series } from '../../core/record/seriesRecord.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Why the rest of a series waits, and the way on: a name and a reason. */
export function HoldBox({ series }: { readonly series: Series }) {
  const actions = useActions()
  const { site } = useServices()
  const { texts, fill } = useTexts()
  const { series: t } = texts
  const [by, setBy] = useState('')
  const [why, setWhy] = useState('')
  const { holds, sittings } = series
  const words = site.texts.note.words.hold
  const whys = [...new Set(holds.map((hold) => words[hold.why]))].join(', ')
  const points = holds.flatMap(({ drawId }) =>
    drawId === series.id
      ? (sittings[0]?.part.point ?? [])
      : sittings.flatMap((each) => (each.drawId === drawId ? each.part.point : [])),
  )
  const goOn = (): void => {
    void actions.goOnWithSeries(series.id, by, why)
    setBy('')
    setWhy('')
  }
  return (
    <div className="warnBox" role="alert">
      <p>
        <strong>{t.held}</strong>{' '}
        {fill(t.heldAbout, { points: [...new Set(points)].join(', '), whys })}
      </p>
      <TextField label={t.goOnBy} hint={t.goOnByHint} value={by} onChange={setBy} />
      <TextField label={t.why} value={why} onChange={setWhy} />
      <button
        type="button"
        className="button"
        disabled={by.trim() === '' || why.trim() === ''}
        onClick={goOn}
      >
        {t.goOn}
      </button>
    </div>
  )
}
