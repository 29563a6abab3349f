import { shownNumber } from '../../core/basics/shownNumber.ts'
import { useState } from 'react'
import { dayAndTime } from '../../core/time/format.ts'
import { useApp } from '../shared/appContext.tsx'
import { TableHead } from '../shared/TableHead.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** So many are shown before somebody asks for more. */
const SHOWN = 30

/** What left this device: when, what, how much, where to, and what was answered. */
export function LeftPart() {
  const left = useApp((s) => s.handOver.left)
  const { texts, fill } = useHandOverTexts()
  const [isAll, setAll] = useState(false)
  const { title, about } = texts.parts.left
  const { at, what, size, server, answer } = texts.columns
  const shown = isAll ? left : left.slice(0, SHOWN)
  return (
    <section aria-labelledby="hand-over-left">
      <h2 id="hand-over-left">{title}</h2>
      <p className="soft">{about}</p>
      {left.length === 0 && <p>{texts.none}</p>}
      {left.length > 0 && (
        <div className="handOverTable" role="group" aria-label={title} tabIndex={0}>
          <table>
            <caption className="visuallyHidden">{title}</caption>
            <TableHead columns={[at, what, size, answer, server]} />
            <tbody>
              {shown.map((each) => (
                <tr key={each.id}>
                  <th scope="row" className="figures">
                    {dayAndTime(each)}
                  </th>
                  <td className="figures">
                    {texts.kinds[each.kind]} {each.about}
                  </td>
                  <td className="figures">
                    {fill(texts.size, { kB: shownNumber(each.size_B / 1000, 1) })}
                  </td>
                  <td>
                    {texts.answers[each.answer]}
                    {each.status !== undefined && ` (${each.status})`}
                  </td>
                  <td>{each.server}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {shown.length < left.length && (
        <button type="button" className="button quiet" onClick={() => setAll(true)}>
          {fill(texts.more, { n: left.length - shown.length })}
        </button>
      )}
    </section>
  )
}
