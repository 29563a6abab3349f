import type { ListSupplies } from '../../app/day/daySupplies.ts'
import { findTube } from '../../core/catalogue/catalogue.ts'
import { SOON_days, type Supply } from '../../core/day/supplies.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { WideTable } from '../catalogue/WideTable.tsx'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { SuppliesWarnings, type NamedSupply } from './SuppliesWarnings.tsx'
import '../catalogue/catalogue.css'

/** What one stock has to give: warnings first, then the tables. */
export function SuppliesOf({ supplies }: { readonly supplies: ListSupplies }) {
  const { site } = useServices()
  const { supplies: t } = site.texts.day
  const { fill } = useTexts()
  const { invented, isCounted, draws, notCounted, stopped, tubes, sets, labels } = supplies
  const nameOf = (code: string): string => findTube(site.catalogue, code)?.name ?? code
  const { what, needed, onHand, shortBy, expiring, expired } = t.columns
  const counts = isCounted ? [onHand, shortBy, fill(expiring, { days: SOON_days }), expired] : []
  const others: readonly NamedSupply[] = [
    ...sets.map(({ kind, gauge, ...rest }) => ({ name: fill(t.set[kind], { gauge }), ...rest })),
    { name: t.labels, ...labels },
  ]
  const told = [
    ...tubes.map(({ tubeCode, ...rest }) => ({ name: nameOf(tubeCode), ...rest })),
    ...others,
  ]
  const title = invented ? t.ofInvented : t.ofStock
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      <SuppliesWarnings supplies={told} />
      {!isCounted && <p className="warnBox">{t.notCountedStock}</p>}
      {notCounted > 0 && <p className="warnBox">{fill(t.notCounted, { n: notCounted })}</p>}
      {stopped > 0 && <p className="warnBox">{fill(t.stopped, { n: stopped })}</p>}
      <p>{fill(t.draws, { n: draws })}</p>
      <WideTable name={`${t.tubesTable}: ${title}`} columns={[what, needed, ...counts]}>
        {tubes.map(({ tubeCode, needed: wanted, counted }) => (
          <tr key={tubeCode}>
            <th scope="row">{nameOf(tubeCode)}</th>
            <td>{wanted}</td>
            {isCounted && <CountedCells counted={counted} />}
          </tr>
        ))}
      </WideTable>
      <WideTable
        name={`${t.othersTable}: ${title}`}
        columns={[what, needed, ...(others.some(({ counted }) => counted) ? counts : [])]}
      >
        {others.map(({ name, needed: wanted, counted }, i) => (
          <tr key={i}>
            <th scope="row">{name}</th>
            <td>{wanted}</td>
            {others.some((each) => each.counted) && <CountedCells counted={counted} />}
          </tr>
        ))}
      </WideTable>
    </section>
  )
}

/** The columns of what is counted; empty ones for what nobody counts. */
function CountedCells({ counted }: { readonly counted: Supply['counted'] | undefined }) {
  const { supplies: t } = useServices().site.texts.day
  if (!counted) return ['a', 'b', 'c', 'd'].map((key) => <td key={key}>{t.none}</td>)
  return (
    <>
      <td>{counted.onHand}</td>
      <td>{counted.shortBy > 0 ? <strong>{counted.shortBy}</strong> : t.enough}</td>
      <td>
        {counted.firstExpiry === undefined
          ? t.none
          : `${counted.expiring} (${dayMonthYear(counted.firstExpiry)})`}
      </td>
      <td>{counted.expired > 0 ? counted.expired : t.none}</td>
    </>
  )
}
