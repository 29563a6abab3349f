import { useApp } from './appContext.tsx'

/** Says that alarms or prompts may not be heard, for as long as that lasts; nobody can put it away. */
export function SoundLine() {
  const trouble = useApp((s) => s.soundTrouble)
  if (!trouble) return null
  return (
    <div className="troubleBox noPrint" role="alert">
      <p>
        <strong>{trouble.what}</strong> {trouble.advice}
      </p>
    </div>
  )
}
