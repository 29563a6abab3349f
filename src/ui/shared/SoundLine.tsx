import { useApp } from './appContext.tsx'

/** Says that alarms or prompts may not be heard, for as long as that lasts; nobody can put it away. */
export function SoundLine() {
  const sound = useApp((s) => s.soundTrouble)
  const ear = useApp((s) => s.earTrouble)
  return [sound, ear].map(
    (trouble) =>
      trouble && (
        <div key={trouble.what} className="troubleBox noPrint" role="alert">
          <p>
            <strong>{trouble.what}</strong> {trouble.advice}
          </p>
        </div>
      ),
  )
}
