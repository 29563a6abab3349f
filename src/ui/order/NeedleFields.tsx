import { GAUGES } from '../../core/order/order.ts'
import type { Gauge, NeedleSet } from '../../core/order/order.ts'
import { Field } from '../shared/Field.tsx'
import { fieldId, useDraft } from './useDraft.ts'

type Length = 'needle_mm' | 'tubing_mm' | 'tubingBore_mm'

/** The needle as its packet says. The hub's color is not asked for and not used. */
export function NeedleFields() {
  const { draft, edit, errorOf } = useDraft()
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
        <Field id={fieldId('needleSet')} label="Kind" error={errorOf('needleSet')}>
          {(parts) => (
            <select
              {...parts}
              className="input"
              value={set.kind}
              onChange={(event) =>
                change({ kind: event.target.value === 'straight' ? 'straight' : 'winged' })
              }
            >
              <option value="straight">Straight needle and holder</option>
              <option value="winged">Winged set with tubing</option>
            </select>
          )}
        </Field>
        <Field
          label="Gauge printed on the packet"
          hint="Read the number. Hub colors differ between makers."
        >
          {(parts) => (
            <select
              {...parts}
              className="input"
              value={set.gauge}
              onChange={(event) => change({ gauge: Number(event.target.value) as Gauge })}
            >
              {GAUGES.map((gauge) => (
                <option key={gauge} value={gauge}>
                  {gauge} G
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <details className="more">
        <summary>Lengths on the packet</summary>
        <div className="pair">
          {length('needle_mm', 'Needle length, mm')}
          {set.kind === 'winged' && length('tubing_mm', 'Tubing length, mm')}
          {set.kind === 'winged' && length('tubingBore_mm', 'Tubing bore, mm')}
        </div>
      </details>
    </>
  )
}
