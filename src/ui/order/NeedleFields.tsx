import { GAUGES, NEEDLE_KINDS, usualWall, WALLS } from '../../core/order/order.ts'
import type { Gauge, NeedleSet } from '../../core/order/order.ts'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId, useDraft } from './useDraft.ts'

type Length = 'needle_mm' | 'tubing_mm' | 'tubingBore_mm'

/** The needle as its packet says. The hub's color is not asked for and not used. */
export function NeedleFields() {
  const { draft, edit, errorOf } = useDraft()
  const { texts, fill } = useTexts()
  const { order } = texts
  const set = draft.needleSet
  const change = (part: Partial<NeedleSet>): void => edit({ needleSet: { ...set, ...part } })
  const length = (key: Length, label: string, hint?: string) => (
    <Field label={label} hint={hint}>
      {(parts) => (
        <input
          {...parts}
          className="input"
          type="number"
          min="0"
          step="any"
          value={Number.isFinite(set[key]) ? set[key] : ''}
          onChange={(event) => change({ [key]: event.target.valueAsNumber })}
        />
      )}
    </Field>
  )
  return (
    <>
      <div className="pair">
        <Field id={fieldId('needleSet')} label={order.needleKind} error={errorOf('needleSet')}>
          {(parts) => (
            <select
              {...parts}
              className="input"
              value={set.kind}
              onChange={(event) => {
                const kind = NEEDLE_KINDS.find((known) => known === event.target.value)
                if (kind) change({ kind, wall: usualWall(kind) })
              }}
            >
              {NEEDLE_KINDS.map((kind) => (
                <option key={kind} value={kind}>
                  {order.needleKinds[kind]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={order.gauge} hint={order.gaugeHint}>
          {(parts) => (
            <select
              {...parts}
              className="input"
              value={set.gauge}
              onChange={(event) => change({ gauge: Number(event.target.value) as Gauge })}
            >
              {GAUGES.map((gauge) => (
                <option key={gauge} value={gauge}>
                  {fill(order.gaugeOf, { gauge })}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <Field label={order.wall} hint={order.wallHint}>
        {(parts) => (
          <select
            {...parts}
            className="input"
            value={set.wall ?? usualWall(set.kind)}
            onChange={(event) => {
              const wall = WALLS.find((known) => known === event.target.value)
              if (wall) change({ wall })
            }}
          >
            {WALLS.map((wall) => (
              <option key={wall} value={wall}>
                {order.walls[wall]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <details className="more">
        <summary>{order.lengths}</summary>
        <div className="pair">
          {length('needle_mm', order.needleLength)}
          {set.kind === 'winged' && length('tubing_mm', order.tubingLength)}
          {set.kind === 'winged' && length('tubingBore_mm', order.tubingBore)}
        </div>
      </details>
    </>
  )
}
