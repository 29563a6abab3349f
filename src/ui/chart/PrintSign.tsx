import { useTexts } from '../shared/useTexts.ts'

/** A place to sign the printed note. */
export function PrintSign() {
  const { request, chart } = useTexts().texts
  return (
    <p className="printSign" aria-hidden="true">
      <span>{request.signs.collected}</span>
      <i />
      <span>{chart.signature}</span>
      <i />
      <span>{request.date}</span>
      <i />
    </p>
  )
}
