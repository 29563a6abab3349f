import type { DropOff } from '../../core/courier/dropOffs.ts'
import { specimenKey } from '../../core/courier/packSpecimen.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { LabSays } from './LabSays.tsx'
import { TakeBack } from './TakeBack.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface DroppedSectionProps {
  readonly dropped: readonly DropOff[]
  readonly onPrint: (drop: DropOff) => void
}

/** What a person brought in the last days: the receipt, what the laboratory says, and taking it back. */
export function DroppedSection({ dropped, onPrint }: DroppedSectionProps) {
  const { texts, fill } = useCourierTexts()
  const { carried: t } = texts
  if (dropped.length === 0) return null
  return (
    <section aria-labelledby="dropped-title">
      <h2 id="dropped-title">{t.droppedTitle}</h2>
      {dropped.map((drop) => (
        <article
          key={drop.act ?? `${drop.to} ${drop.at.at_ms}`}
          className="sentCard"
          aria-label={drop.to}
        >
          <h3>{drop.to}</h3>
          <p>{fill(t.droppedLine, { n: drop.specimens.length, at: dayAndTime(drop.at) })}</p>
          <ul className="bare figures sentTubes">
            {drop.specimens.map((each) => (
              <li key={specimenKey(each)}>
                {each.number} {each.tube.name}
              </li>
            ))}
          </ul>
          <button type="button" className="button" onClick={() => onPrint(drop)}>
            {t.print}
          </button>
          <LabSays pack={drop} />
          {drop.act !== undefined && <TakeBack pack={drop} />}
        </article>
      ))}
    </section>
  )
}
