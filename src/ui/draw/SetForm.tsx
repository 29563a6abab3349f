import { SelectField } from '../shared/SelectField.tsx'
import { useState } from 'react'
import { GAUGES, NEEDLE_KINDS, SYRINGES_mL, usualWall, WALLS } from '../../core/order/order.ts'
import type { NeedleSet, SyringeSize } from '../../core/order/order.ts'
import { usualSet } from '../../core/order/usualSets.ts'
import { defined } from '../../core/basics/defined.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { useTexts } from '../shared/useTexts.ts'

const DRAWN_INTO: readonly (SyringeSize | 'holder')[] = ['holder', ...SYRINGES_mL]

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
  const [into, setInto] = useState<SyringeSize | 'holder'>(set.syringe_mL ?? 'holder')
  const [wall, setWall] = useState(set.wall ?? usualWall(set.kind))
  return (
    <form
      className="oneLine"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const { syringe_mL: _before, ...lengths } = kind === set.kind ? set : usualSet(kind, gauge)
        const syringe_mL = into === 'holder' ? undefined : into
        onSend({
          type: 'chooseSet',
          set: defined({ ...lengths, kind, gauge, wall, syringe_mL }),
        })
      }}
    >
      <SelectField
        label={order.needleKind}
        options={NEEDLE_KINDS}
        nameOf={(one) => order.needleKinds[one]}
        value={kind}
        onChange={(next) => {
          setKind(next)
          setWall(usualWall(next))
        }}
      />
      <SelectField
        label={order.gauge}
        options={GAUGES}
        nameOf={(one) => fill(order.gaugeOf, { gauge: one })}
        value={gauge}
        onChange={setGauge}
      />
      <SelectField
        label={order.wall}
        options={WALLS}
        nameOf={(one) => order.walls[one]}
        value={wall}
        onChange={setWall}
      />
      <SelectField
        label={order.drawnInto}
        options={DRAWN_INTO}
        nameOf={(one) =>
          one === 'holder' ? order.holder : fill(order.syringeOf, { syringe_mL: one })
        }
        value={into}
        onChange={setInto}
      />
      <button type="submit" className="choice plain">
        <span className="label">{draw.recordSet}</span>
      </button>
    </form>
  )
}
