import { counting, type Counted } from '../../core/courier/count.ts'
import { isOfOrder } from '../../core/courier/laboratoryOfTube.ts'
import type { PackGroup } from '../../core/courier/packList.ts'
import { specimenKey, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { useServices } from '../shared/appContext.tsx'
import { WideTable } from '../catalogue/WideTable.tsx'
import { HandOverForm } from './HandOverForm.tsx'
import { PackRow } from './PackRow.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface PackCardProps {
  readonly group: PackGroup
  readonly counted: Counted
  readonly named: boolean
  readonly onToggle: (specimen: PackSpecimen) => void
  /** Its number may be said now. */
  readonly isNext: boolean
  readonly onAll: () => void
}

/** One pack: its specimens, how many are in the hand, and handing it over. Practice goes with no courier. */
export function PackCard({ group, counted, named, onToggle, isNext, onAll }: PackCardProps) {
  const { texts, fill, packName } = useCourierTexts()
  const { phrases } = useServices().site.betweenPhrases
  const { specimens, laboratory, invented, key } = group
  const { found, missing } = counting(group, counted)
  const { columns } = texts
  const name = invented ? `${packName(group)}, ${texts.practice}` : packName(group)
  const id = `pack-${key.replaceAll('/', '-')}`
  return (
    <section className="packCard" aria-labelledby={id}>
      <h2 id={id}>
        {packName(group)} {invented && <span className="tag">{texts.practice}</span>}
      </h2>
      {laboratory && isOfOrder(laboratory) && <p className="packNote">{texts.ofOrder}</p>}
      {laboratory && !isOfOrder(laboratory) && (
        <p className="soft">
          {laboratory.pickUps.length > 0 &&
            `${fill(texts.pickUps, { times: laboratory.pickUps.join(', ') })} `}
          {fill(texts.mostHours, { n: laboratory.most_h })}
        </p>
      )}
      <WideTable
        name={fill(texts.specimens, { pack: name })}
        columns={[
          columns.here,
          columns.who,
          columns.tube,
          columns.tests,
          columns.limit,
          columns.kept,
        ]}
      >
        {specimens.map((each) => (
          <PackRow
            key={specimenKey(each)}
            specimen={each}
            laboratory={laboratory}
            isCounted={counted.has(specimenKey(each))}
            named={named}
            onToggle={() => onToggle(each)}
          />
        ))}
      </WideTable>
      <p className="packCount figures" role="status">
        {fill(texts.counted, { n: found.length, of: specimens.length })}
      </p>
      {isNext && (
        <p className="packNote">
          {fill(texts.countNow, {
            complete: phrases.packComplete[0] ?? '',
            short: phrases.packShort[0] ?? '',
          })}
        </p>
      )}
      {missing.length > 0 && (
        <button type="button" className="button" onClick={onAll}>
          {texts.countAll}
        </button>
      )}
      {!invented && <HandOverForm group={group} found={found} missing={missing} />}
    </section>
  )
}
