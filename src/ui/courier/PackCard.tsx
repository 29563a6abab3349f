import { counting, type Counted } from '../../core/courier/count.ts'
import type { PackGroup } from '../../core/courier/packList.ts'
import { specimenKey, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { WideTable } from '../catalogue/WideTable.tsx'
import { HandOverForm } from './HandOverForm.tsx'
import { PackRow } from './PackRow.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface PackCardProps {
  readonly group: PackGroup
  readonly counted: Counted
  readonly named: boolean
  readonly onToggle: (specimen: PackSpecimen) => void
  readonly onAll: () => void
}

/** One pack: its specimens, how many are in the hand, and handing it over. Practice goes with no courier. */
export function PackCard({ group, counted, named, onToggle, onAll }: PackCardProps) {
  const { texts, fill, packName } = useCourierTexts()
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
      {laboratory && (
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
      {missing.length > 0 && (
        <button type="button" className="button" onClick={onAll}>
          {texts.countAll}
        </button>
      )}
      {!invented && <HandOverForm group={group} found={found} missing={missing} />}
    </section>
  )
}
