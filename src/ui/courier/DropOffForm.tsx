import { useState } from 'react'
import { arrivalTemperature } from '../../core/courier/arrivalTemperature.ts'
import type { PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { useActions } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

/** Leaving the tubes that are in the hand: where, and with whom. */
export function DropOffForm({ specimens }: { readonly specimens: readonly PackSpecimen[] }) {
  const actions = useActions()
  const { texts, fill } = useCourierTexts()
  const { carried: t } = texts
  const [where, setWhere] = useState('')
  const [whom, setWhom] = useState('')
  const [degrees, setDegrees] = useState('')
  const [isTried, setTried] = useState(false)
  const noWhere = where.trim() === ''
  const temperature_C = arrivalTemperature(degrees)
  const isWrong = degrees.trim() !== '' && temperature_C === undefined

  const leave = (): void => {
    setTried(true)
    if (specimens.length === 0 || noWhere || isWrong) return
    const measured = temperature_C === undefined ? {} : { temperature_C }
    const left = { specimens, where: where.trim(), whom: whom.trim(), ...measured }
    void actions.courier.dropOff(left)
    setDegrees('')
    setTried(false)
    setWhom('')
  }

  return (
    <form
      className="handOver"
      onSubmit={(event) => {
        event.preventDefault()
        leave()
      }}
    >
      <h3>{t.dropTitle}</h3>
      <TextField
        label={t.where}
        value={where}
        onChange={setWhere}
        error={isTried && noWhere ? t.whereNeeded : undefined}
      />
      <TextField label={t.whom} hint={t.whomHint} value={whom} onChange={setWhom} />
      <TextField
        label={t.temperature}
        hint={t.temperatureHint}
        value={degrees}
        onChange={setDegrees}
        error={isWrong ? t.temperatureWrong : undefined}
      />
      {isTried && specimens.length === 0 && <p role="alert">{texts.handOver.none}</p>}
      <button type="submit" className="button">
        {fill(t.drop, { n: specimens.length })}
      </button>
    </form>
  )
}
