import { useState } from 'react'
import type { PackGroup } from '../../core/courier/packList.ts'
import type { PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { useActions } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface HandOverFormProps {
  readonly group: PackGroup
  readonly found: readonly PackSpecimen[]
  readonly missing: readonly PackSpecimen[]
}

/** A complete pack goes with a courier's name alone; one that is not goes with the name of who says so as well. */
export function HandOverForm({ group, found, missing }: HandOverFormProps) {
  const actions = useActions()
  const { texts, fill } = useCourierTexts()
  const { handOver: t } = texts
  const [courier, setCourier] = useState('')
  const [saidBy, setSaidBy] = useState('')
  const [isTried, setTried] = useState(false)
  const isShort = missing.length > 0
  const noCourier = courier.trim() === ''
  const noSaidBy = isShort && saidBy.trim() === ''

  const give = (): void => {
    setTried(true)
    if (found.length === 0 || noCourier || noSaidBy) return
    void actions.courier.handOver({
      specimens: found,
      courier: courier.trim(),
      laboratory: group.laboratory,
      missing: missing.map(({ number }) => number),
      missingSaidBy: isShort ? saidBy.trim() : '',
    })
    setTried(false)
    setSaidBy('')
  }

  return (
    <form
      className="handOver"
      onSubmit={(event) => {
        event.preventDefault()
        give()
      }}
    >
      <h3>{t.title}</h3>
      <TextField
        label={t.courier}
        value={courier}
        onChange={setCourier}
        error={isTried && noCourier ? t.courierNeeded : undefined}
      />
      {isShort && found.length > 0 && (
        <div className="warnBox">
          <p>{fill(t.missing, { n: missing.length })}</p>
          <ul className="bare figures missingOnes">
            {missing.map(({ number, tube }) => (
              <li key={number}>
                <strong>{number}</strong> {tube.name}
              </li>
            ))}
          </ul>
          <p>{t.stay}</p>
          <TextField
            label={t.saidBy}
            value={saidBy}
            onChange={setSaidBy}
            error={isTried && noSaidBy ? t.saidByNeeded : undefined}
          />
        </div>
      )}
      {isTried && found.length === 0 && <p role="alert">{t.none}</p>}
      <button type="submit" className={isShort ? 'button' : 'button go'}>
        {isShort ? t.short : t.complete}
      </button>
    </form>
  )
}
