import { createPortal } from 'react-dom'
import { initialsOf } from '../../app/site/whoDraws.ts'
import type { DropOff } from '../../core/courier/dropOffs.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useApp } from '../shared/appContext.tsx'
import { useCourierTexts } from './useCourierTexts.ts'
import { SignLines } from '../shared/SignLines.tsx'
import { TableHead } from '../shared/TableHead.tsx'
import '../plan/request.css'

/** The receipt on paper: what was left where, and lines to sign. It stays outside, so that it bears no full name. */
export function DropOffPaper({ drop }: { readonly drop: DropOff }) {
  const { paper } = useApp((s) => s.settings)
  const { texts } = useCourierTexts()
  const { receipt: t } = texts.carried
  const { specimens, to, at } = drop
  const rows = { to, at: dayAndTime(at), count: String(specimens.length) }
  const isPractice = specimens.some(({ invented }) => invented)
  return createPortal(
    <article className={`requestForm manifestPaper ${paper}`} aria-label={t.title}>
      <h2>{t.title}</h2>
      {isPractice && <p className="requestInvented">{texts.manifest.practice}</p>}
      <dl>
        {(Object.keys(t.rows) as (keyof typeof t.rows)[]).map((key) => (
          <div key={key}>
            <dt>{t.rows[key]}</dt>
            <dd>{rows[key]}</dd>
          </div>
        ))}
      </dl>
      <table>
        <TableHead columns={Object.values(t.columns)} />
        <tbody>
          {specimens.map(({ number, patient, tube, collected }) => (
            <tr key={number}>
              <th scope="row">{number}</th>
              <td>{initialsOf(patient.fullName)}</td>
              <td>{patient.recordNumber}</td>
              <td>{tube.name}</td>
              <td>{dayAndTime(collected)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <SignLines signs={Object.values(t.signs)} />
    </article>,
    document.body,
  )
}
