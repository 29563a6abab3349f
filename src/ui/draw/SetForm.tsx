import { useState } from 'react'
import { GAUGES, NEEDLE_KINDS, usualWall, WALLS } from '../../core/order/order.ts'
import type { NeedleSet } from '../../core/order/order.ts'
import { usualSet } from '../../core/order/usualSets.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface SetFormProps {
  /** The needle in hand. */
  readonly set: NeedleSet
  readonly onSend: (command: Command) => void
}

/** Another needle or set than planned, as its packet says. Its lengths are the usual ones of its kind. */
export function SetForm({ set, onSend }: SetFormProps) {
  const { texts, fill } = useTexts()
  const { draw, order } = texts
  const [kind, setKind] = useState(set.kind)
  const [gauge, setGauge] = useState(set.gauge)
  const [wall, setWall] = useState(set.wall ?? usualWall(set.kind))
  return (
    <form
      className="oneLine"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const lengths = kind === set.kind ? set : usualSet(kind, gauge)
        onSend({ type: 'chooseSet', set: { ...lengths, kind, gauge, wall } })
      }}
    >
      <Field label={order.needleKind}>
        {(parts) => (
          <select
            {...parts}
            className="input"
            value={kind}
            onChange={(event) => {
              const next = NEEDLE_KINDS.find((known) => known === event.target.value) ?? kind
              setKind(next)
              setWall(usualWall(next))
            }}
          >
            {NEEDLE_KINDS.map((one) => (
              <option key={one} value={one}>
                {order.needleKinds[one]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={order.gauge}>
        {(parts) => (
          <select
            {...parts}
            className="input"
            value={gauge}
            onChange={(event) =>
              setGauge(GAUGES.find((known) => String(known) === event.target.value) ?? gauge)
            }
          >
            {GAUGES.map((one) => (
              <option key={one} value={one}>
                {fill(order.gaugeOf, { gauge: one })}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={order.wall}>
        {(parts) => (
          <select
            {...parts}
            className="input"
            value={wall}
            onChange={(event) =>
              setWall(WALLS.find((known) => known === event.target.value) ?? wall)
            }
          >
            {WALLS.map((one) => (
              <option key={one} value={one}>
                {order.walls[one]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <button type="submit" className="choice plain">
        <span className="label">{draw.recordSet}</span>
      </button>
    </form>
  )
}
