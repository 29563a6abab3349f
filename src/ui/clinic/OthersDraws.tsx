import { useId } from 'react'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useClinicTexts } from './useClinicTexts.ts'

/** Draws that go on at other devices of the clinic: to look on, and nothing else. */
export function OthersDraws({ named }: { readonly named: boolean }) {
  const actions = useActions()
  const others = useApp((s) => s.others)
  const { clinic, fill } = useClinicTexts()
  const { home } = useTexts().texts
  const heading = useId()
  const open = others.filter(({ closed }) => !closed)
  if (open.length === 0) return null
  return (
    <section className="unfinished" aria-labelledby={heading}>
      <h2 id={heading}>{clinic.others.title}</h2>
      <p>{clinic.others.about}</p>
      <ul className="bare">
        {open.map(({ drawId, patientName, deviceName: device, opened_ms, heard_ms }) => {
          const name = named ? patientName : fill(home.nameHidden, { number: drawId })
          return (
            <li key={drawId}>
              <span className="drawName">
                <strong>{name}</strong> <span>{fill(clinic.others.on, { device })}</span>{' '}
                <span className="soft figures">{timeOfDay(here(opened_ms))}</span>{' '}
                <span className="soft">
                  {fill(clinic.others.heard, { since: timeOfDay(here(heard_ms)) })}
                </span>
              </span>
              <button
                type="button"
                className="button"
                aria-label={fill(clinic.others.lookOf, { name, device })}
                onClick={() => void actions.go({ name: 'draw', drawId })}
              >
                {clinic.others.look}
              </button>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
