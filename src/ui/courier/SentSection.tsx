import { useEffect, useState } from 'react'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { useServices } from '../shared/appContext.tsx'
import { ManifestPaper } from './ManifestPaper.tsx'
import { SentCard } from './SentCard.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

/** What left in the last days, the latest first. */
export function SentSection({ sent }: { readonly sent: readonly SentPack[] }) {
  const { page } = useServices()
  const { texts } = useCourierTexts()
  // It stays on the paper: some browsers print only after the call.
  const [printed, setPrinted] = useState<{ readonly pack: SentPack }>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  return (
    <section aria-labelledby="sent-title">
      <h2 id="sent-title">{texts.sentTitle}</h2>
      {sent.length === 0 && <p>{texts.sentNothing}</p>}
      {sent.map((pack) => (
        <SentCard
          key={`${pack.pack} ${pack.sent.at_ms}`}
          pack={pack}
          onPrint={() => setPrinted({ pack })}
        />
      ))}
      {printed && <ManifestPaper pack={printed.pack} />}
    </section>
  )
}
