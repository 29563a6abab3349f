import type { TroubleText } from '../../app/site/voiceTexts.ts'
import { useApp } from './appContext.tsx'

/** Says that alarms or prompts may not be heard, for as long as that lasts; nobody can put it away. */
export function SoundLine() {
  const sound = useApp((s) => s.soundTrouble)
  const ear = useApp((s) => s.earTrouble)
  return (
    <>
      {sound && <Line trouble={sound} />}
      {ear && <Line trouble={ear} of="earLine" />}
    </>
  )
}

interface LineProps {
  readonly trouble: TroubleText
  readonly of?: 'earLine'
}

function Line({ trouble, of }: LineProps) {
  return (
    <div className={`troubleBox noPrint ${of ?? ''}`} role="alert">
      <p>
        <strong>{trouble.what}</strong> <span className="advice">{trouble.advice}</span>
      </p>
    </div>
  )
}
