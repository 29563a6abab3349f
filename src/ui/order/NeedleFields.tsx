import { SelectField } from '../shared/SelectField.tsx'
import { GAUGES, NEEDLE_KINDS, SYRINGES_mL, usualWall, WALLS } from '../../core/order/order.ts'
import type { NeedleSet, SyringeSize } from '../../core/order/order.ts'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId, useDraft } from './useDraft.ts'

type Length = 'needle_mm' | 'tubing_mm' | 'tubingBore_mm'

const DRAWN_INTO: readonly (SyringeSize | 'holder')[] = ['holder', ...SYRINGES_mL]

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
        <SelectField
          id={fieldId('needleSet')}
          label={order.needleKind}
          error={errorOf('needleSet')}
          options={NEEDLE_KINDS}
          nameOf={(kind) => order.needleKinds[kind]}
          value={set.kind}
          onChange={(kind) => change({ kind, wall: usualWall(kind) })}
        />
        <SelectField
          label={order.gauge}
          hint={order.gaugeHint}
          options={GAUGES}
          nameOf={(gauge) => fill(order.gaugeOf, { gauge })}
          value={set.gauge}
          onChange={(gauge) => change({ gauge })}
        />
      </div>
      <SelectField
        label={order.wall}
        hint={order.wallHint}
        options={WALLS}
        nameOf={(wall) => order.walls[wall]}
        value={set.wall ?? usualWall(set.kind)}
        onChange={(wall) => change({ wall })}
      />
      <SelectField
        label={order.drawnInto}
        hint={order.drawnIntoHint}
        options={DRAWN_INTO}
        nameOf={(one) =>
          one === 'holder' ? order.holder : fill(order.syringeOf, { syringe_mL: one })
        }
        value={set.syringe_mL ?? 'holder'}
        onChange={(one) => {
          const { syringe_mL: _before, ...bare } = set
          edit({ needleSet: one === 'holder' ? bare : { ...bare, syringe_mL: one } })
        }}
      />
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
