import { SOON_days, type Supply } from '../../core/day/supplies.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

export interface NamedSupply extends Supply {
  readonly name: string
}

/** What runs out, what expires and what has, a sentence each. */
export function SuppliesWarnings({ supplies }: { readonly supplies: readonly NamedSupply[] }) {
  const { supplies: t } = useServices().site.texts.day
  const { fill } = useTexts()
  const each = supplies.flatMap(({ name, needed, counted }) =>
    counted ? [{ name, needed, ...counted }] : [],
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
  return lines.map((line, i) => (
    <p key={i} className="warnBox">
      {line}
    </p>
  ))
}
