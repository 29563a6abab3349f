import { dayMonthYear } from '../../core/time/format.ts'
import type { ListedItem } from '../../core/day/dayState.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { CancelForm } from './CancelForm.tsx'
import './day.css'

/** Orders of the day, and the way to add more of them. */
export function DayList() {
  const { items } = useApp((s) => s.day)
  const actions = useActions()
  const { day } = useServices().site.texts
  return (
    <section className="dayList" aria-labelledby="day-list">
      <h2 id="day-list">{day.title}</h2>
      <ul className="bare">
        {items.map((item) => (
          <Item key={item.order.id} item={item} />
        ))}
      </ul>
      <FileButton
        label={day.addFiles}
        accept=".json,.csv,application/json,text/csv"
        onFile={(file) => void actions.day.addFiles([file])}
      />
    </section>
  )
}

function Item({ item }: { readonly item: ListedItem }) {
  const { day } = useServices().site.texts
  const { texts, fill } = useTexts()
  const { patient, order, id, invented } = item.order
  return (
    <li>
      <p>
        <strong>{patient.fullName}</strong>{' '}
        {invented && <span className="tag">{texts.app.invented}</span>}{' '}
        <span className="soft figures">
          {dayMonthYear(patient.birthDate)} ·{' '}
          {fill(texts.series.order, { number: order.orderNumber, record: patient.recordNumber })}
        </span>
      </p>
      <p>{day.standing[item.standing]}</p>
      {item.standing === 'waiting' && <CancelForm orderIds={[id]} />}
    </li>
  )
}
