import { useApp, useServices } from '../shared/appContext.tsx'

/** On the record of a draw that was brought in: that it was, who signed it, what that proves and what not. */
export function OriginNote({ drawId }: { readonly drawId: string }) {
  const lines = useApp((s) => s.origins.get(drawId))
  const { origin } = useServices().site.texts.log
  if (!lines) return null
  return (
    <details className="originNote">
      <summary>{origin.title}</summary>
      <p>{origin.about}</p>
      <ul>
        {lines.map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ul>
    </details>
  )
}
