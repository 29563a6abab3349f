import { SOON_days, type TubeSupply } from '../../core/day/supplies.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface SuppliesWarningsProps {
  readonly tubes: readonly TubeSupply[]
  readonly nameOf: (tubeCode: string) => string
}

/** What runs out, what expires and what has, a sentence each. */
export function SuppliesWarnings({ tubes, nameOf }: SuppliesWarningsProps) {
  const { supplies: t } = useServices().site.texts.day
  const { fill } = useTexts()
  const each = tubes.flatMap(({ tubeCode, needed, counted }) =>
    counted ? [{ name: nameOf(tubeCode), needed, ...counted }] : [],
  )
  const told = (text: string, parts: readonly string[]): string[] =>
    parts.length === 0 ? [] : [fill(text, { names: parts.join('; '), days: SOON_days })]
  const lines = [
    ...told(
      t.short,
      each.flatMap(({ name, shortBy: n }) => (n > 0 ? [fill(t.shortOf, { name, n })] : [])),
    ),
    ...told(
      t.usedUp,
      each.flatMap(({ name, needed, onHand }) => (needed > 0 && needed === onHand ? [name] : [])),
    ),
    ...told(
      t.expires,
      each.flatMap(({ name, expiring: n, firstExpiry }) =>
        firstExpiry === undefined
          ? []
          : [fill(t.expiresOf, { name, n, day: dayMonthYear(firstExpiry) })],
      ),
    ),
    ...told(
      t.expired,
      each.flatMap(({ name, expired }) => (expired > 0 ? [name] : [])),
    ),
  ]
  return lines.map((line) => (
    <p key={line} className="warnBox">
      {line}
    </p>
  ))
}
