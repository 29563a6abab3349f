import { createPortal } from 'react-dom'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { dayAndTimeOf, dayMonthYear } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useCourierTexts } from './useCourierTexts.ts'
import { SignLines } from '../shared/SignLines.tsx'
import { TableHead } from '../shared/TableHead.tsx'
import '../plan/request.css'

/** The manifest on paper: what is in the pack, what is not, and lines to sign. */
export function ManifestPaper({ pack }: { readonly pack: SentPack }) {
  const { paper } = useApp((s) => s.settings)
  const { manifest: manifestOf, testName } = useServices()
  const { texts, fill } = useCourierTexts()
  const { manifest: t } = texts
  const m = manifestOf(pack)
  const hows = m.carriedAt.map((how) => texts.carriedAt[how]).join(', ')
  const rows = {
    pack: m.pack || texts.unnamedPack,
    from: m.from,
    laboratory: m.laboratory || texts.noLaboratory,
    courier: m.courier || texts.nobodyNamed,
    sent: dayAndTimeOf(m.sent),
    carriedAt: m.dark ? fill(t.dark, { how: hows }) : hows,
    count: String(m.count),
    checkSum: m.checkSum,
  }
  const { columns } = t
  return createPortal(
    <article className={`requestForm manifestPaper ${paper}`} aria-label={t.title}>
      <h2>{t.title}</h2>
      {m.practice && <p className="requestInvented">{t.practice}</p>}
      <dl>
        {(Object.keys(t.rows) as (keyof typeof t.rows)[]).map((key) => (
          <div key={key} className={key}>
            <dt>{t.rows[key]}</dt>
            <dd>{rows[key]}</dd>
          </div>
        ))}
      </dl>
      {m.missing.length > 0 && (
        <p className="requestHeld">
          {fill(t.missing, { numbers: m.missing.join(', '), by: m.missingSaidBy })}
        </p>
      )}
      <table>
        <TableHead columns={Object.values(columns)} />
        <tbody>
          {m.specimens.map((row) => (
            <tr key={row.number}>
              <th scope="row">{row.number}</th>
              <td>{[row.familyName, row.givenNames].filter(Boolean).join(', ')}</td>
              <td>{dayMonthYear(row.birthDate)}</td>
              <td>{row.recordNumber}</td>
              <td>{row.orderNumber}</td>
              <td>{row.tube}</td>
              <td>{row.tests.map(testName).join(', ')}</td>
              <td>{dayAndTimeOf(row.collected)}</td>
              <td>
                {row.limit !== undefined && dayAndTimeOf(row.limit)}
                {row.passed.length > 0 && (
                  <strong> {fill(t.passed, { tests: row.passed.map(testName).join(', ') })}</strong>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <SignLines signs={Object.values(t.signs)} />
    </article>,
    document.body,
  )
}
