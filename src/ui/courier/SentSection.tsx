import type { SentPack } from '../../core/courier/sentPacks.ts'
import { SentCard } from './SentCard.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface SentSectionProps {
  readonly sent: readonly SentPack[]
  readonly onPrint: (pack: SentPack) => void
}

/** What left in the last days, the latest first. */
export function SentSection({ sent, onPrint }: SentSectionProps) {
  const { texts } = useCourierTexts()
  return (
    <section aria-labelledby="sent-title">
      <h2 id="sent-title">{texts.sentTitle}</h2>
      {sent.length === 0 && <p>{texts.sentNothing}</p>}
      {sent.map((pack) => (
        <SentCard
          key={`${pack.pack} ${pack.sent.at_ms}`}
          pack={pack}
          onPrint={() => onPrint(pack)}
        />
      ))}
    </section>
  )
}
