import { manifestCsv, manifestJson } from '../../app/view/manifestFiles.ts'
import { specimenKey } from '../../core/courier/packSpecimen.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { LabSays } from './LabSays.tsx'
import { TakeBack } from './TakeBack.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface SentCardProps {
  readonly pack: SentPack
  readonly onPrint: () => void
}

/** A pack that left: its manifest, what the laboratory says of it, and taking it back where it never left. */
export function SentCard({ pack, onPrint }: SentCardProps) {
  const { page, manifest } = useServices()
  const { texts, fill } = useCourierTexts()
  const { specimens, courier, laboratory, missing, missingSaidBy } = pack
  const title = pack.pack || texts.unnamedPack
  const invented = specimens.some((each) => each.invented)
  return (
    <article className="sentCard" aria-label={title}>
      <h3 className="figures">
        {title} {invented && <span className="tag">{texts.practice}</span>}
      </h3>
      <p>
        {fill(texts.sentLine, {
          n: specimens.length,
          at: dayAndTime(pack.sent),
          courier: courier || texts.nobodyNamed,
        })}
        {laboratory && `, ${laboratory}`}
      </p>
      {missing.length > 0 && (
        <p className="warnBox">
          {fill(texts.sentMissing, { numbers: missing.join(', '), by: missingSaidBy })}
        </p>
      )}
      <ul className="bare figures sentTubes">
        {specimens.map((each) => (
          <li key={specimenKey(each)}>
            {each.number} {each.tube.name}
          </li>
        ))}
      </ul>
      <div className="rowOfButtons">
        <button type="button" className="button" onClick={onPrint}>
          {texts.manifest.print}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => page.saveText(manifestJson(manifest(pack)))}
        >
          {texts.manifest.json}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => page.saveText(manifestCsv(manifest(pack)))}
        >
          {texts.manifest.csv}
        </button>
      </div>
      <LabSays pack={pack} />
      {pack.act !== undefined && <TakeBack pack={pack} />}
    </article>
  )
}
