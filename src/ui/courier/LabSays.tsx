import { useState } from 'react'
import { arrivalTemperature } from '../../core/courier/arrivalTemperature.ts'
import type { PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { REJECT_REASONS, type RejectReason } from '../../core/protocol/benchEvents.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useActions } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

type SentTubes = Pick<SentPack, 'specimens'>

/** What the laboratory says of a pack: that it came, and what of it was turned down and why. */
export function LabSays({ pack }: { readonly pack: SentTubes }) {
  const actions = useActions()
  const { texts, fill } = useCourierTexts()
  const { lab, carried } = texts
  const { specimens } = pack
  const [degrees, setDegrees] = useState('')
  const measured_C = arrivalTemperature(degrees)
  const isWrong = degrees.trim() !== '' && measured_C === undefined
  const open = specimens.filter(({ way }) => !way.received && !way.rejected)
  const received = specimens.filter(({ way }) => way.received)
  const lastReceived = received.map(({ way }) => way.received?.at).find(Boolean)
  return (
    <div className="labSays">
      {received.length > 0 && lastReceived && (
        <p>
          {fill(lab.partly, { n: received.length, of: specimens.length })},{' '}
          {fill(lab.isReceived, { at: dayAndTime(lastReceived) })}
        </p>
      )}
      {specimens.map(({ number, way: { rejected } }) =>
        rejected ? (
          <p key={number} className="packOver">
            {number}{' '}
            {fill(lab.isRejected, {
              at: dayAndTime(rejected.at),
              reason: [lab.reasons[rejected.reason], rejected.note].filter(Boolean).join(', '),
            })}
          </p>
        ) : null,
      )}
      {open.length > 0 && (
        <form
          className="handOver"
          onSubmit={(event) => {
            event.preventDefault()
            if (isWrong) return
            const by = measured_C === undefined ? '' : fill(carried.measured, { c: measured_C })
            void actions.courier.received(open, by)
            setDegrees('')
          }}
        >
          <TextField
            label={carried.temperature}
            hint={carried.temperatureHint}
            value={degrees}
            onChange={setDegrees}
            error={isWrong ? carried.temperatureWrong : undefined}
          />
          <button type="submit" className="button">
            {lab.received}
          </button>
        </form>
      )}
      <RejectForm specimens={specimens.filter(({ way }) => !way.rejected)} />
    </div>
  )
}

function RejectForm({ specimens }: { readonly specimens: readonly PackSpecimen[] }) {
  const actions = useActions()
  const { lab } = useCourierTexts().texts
  const [number, setNumber] = useState('')
  const [reason, setReason] = useState<RejectReason>('QS')
  const [note, setNote] = useState('')
  const [first] = specimens
  if (!first) return null
  const chosen = specimens.find((each) => each.number === number) ?? first
  return (
    <details>
      <summary>{lab.rejectTitle}</summary>
      <form
        className="handOver"
        onSubmit={(event) => {
          event.preventDefault()
          void actions.courier.rejected([chosen], reason, note.trim())
          setNote('')
        }}
      >
        <SelectField
          label={lab.which}
          options={specimens.map((each) => each.number)}
          nameOf={(each) => each}
          value={chosen.number}
          onChange={setNumber}
        />
        <SelectField
          label={lab.reason}
          options={REJECT_REASONS}
          nameOf={(each) => lab.reasons[each]}
          value={reason}
          onChange={setReason}
        />
        <TextField label={lab.note} value={note} onChange={setNote} />
        <button type="submit" className="button">
          {lab.reject}
        </button>
      </form>
    </details>
  )
}
