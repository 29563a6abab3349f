import { useTexts } from '../shared/useTexts.ts'

/** Lines to sign on. */
export function RequestSigns() {
  const { request } = useTexts().texts
  return (
    <section className="requestSigns">
      {(['ordered', 'collected', 'received'] as const).map((id) => (
        <p key={id}>
          <span>{request.signs[id]}</span>
          <i />
          <span>{request.date}</span>
          <i />
        </p>
      ))}
    </section>
  )
}
