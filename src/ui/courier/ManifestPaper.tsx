import { createPortal } from 'react-dom'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { dayAndTimeOf, dayMonthYear } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useCourierTexts } from './useCourierTexts.ts'
import { useTexts } from '../shared/useTexts.ts'
import { SignLines } from '../shared/SignLines.tsx'
import { TableHead } from '../shared/TableHead.tsx'
import '../plan/request.css'

/** `25 Nov 2026 09:02` of a time to the second with its offset, which the file has. */
const minuteOf = (iso: string): string => dayAndTimeOf(iso.slice(0, '2026-11-25T09:02'.length))

/** The manifest on paper: what is in the pack, what is not, and lines to sign. */
export function ManifestPaper({ pack }: { readonly pack: SentPack }) {
  const { paper } = useApp((s) => s.settings)
  const { manifest: manifestOf, testName } = useServices()
  const { priorities } = useTexts().texts.order
  const { texts, fill } = useCourierTexts()
  const { manifest: t } = texts
  const m = manifestOf(pack)
  const hows = m.carriedAt.map((how) => texts.carriedAt[how]).join(', ')
  const rows = {
    pack: m.pack || texts.unnamedPack,
    from: m.from,
    laboratory: m.laboratory || texts.noLaboratory,
    courier: m.courier || texts.nobodyNamed,
    sent: minuteOf(m.sent),
    carriedAt: m.dark ? fill(t.dark, { how: hows }) : hows,
    count: String(m.count),
    checkSum: m.checkSum,
  }
  const { columns } = t
  const wayOf = ({ priority, spun, separated, portions, separateBy }: (typeof m.specimens)[0]) =>
    [
      priority !== 'routine' && priorities[priority],
      ...spun.map(({ started, g }) => fill(t.spun, { at: minuteOf(started), g: g ?? '?' })),
      separated !== undefined && fill(t.separated, { at: minuteOf(separated) }),
      portions !== undefined && fill(t.portions, { n: portions }),
      separateBy !== undefined && fill(t.separateBy, { at: minuteOf(separateBy) }),
    ].filter((text) => typeof text === 'string')
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
      {m.unknown.length > 0 && (
        <p className="requestHeld">{fill(t.unknown, { numbers: m.unknown.join(', ') })}</p>
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
              <td>
                {row.tube}
                {wayOf(row).map((text, i) => (
                  <p key={i}>{text}</p>
                ))}
              </td>
              <td>{row.tests.map(testName).join(', ')}</td>
              <td>
                {minuteOf(row.collected)}
                <p>{fill(t.by, { who: row.collectedBy })}</p>
              </td>
              <td>
                {row.limit !== undefined && minuteOf(row.limit)}
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
