import { useState } from 'react'
import type { Counted } from '../../core/courier/count.ts'
import { onTheWay, wayMinutes } from '../../core/courier/onTheWay.ts'
import { specimenKey, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { WideTable } from '../catalogue/WideTable.tsx'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { TextField } from '../shared/TextField.tsx'
import { CarriedRow } from './CarriedRow.tsx'
import { DropOffForm } from './DropOffForm.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface CarriedSectionProps {
  readonly specimens: readonly PackSpecimen[]
  readonly counted: Counted
  readonly named: boolean
  readonly onToggle: (specimen: PackSpecimen) => void
}

/** Tubes that a person brings themselves: until when each must arrive, how it travels, and leaving them. */
export function CarriedSection({ specimens, counted, named, onToggle }: CarriedSectionProps) {
  const { rows } = useApp((s) => s.bench)
  const { site, now_ms } = useServices()
  const { texts, fill } = useCourierTexts()
  const { carried: t } = texts
  const { columns } = t
  const [way, setWay] = useState('')
  const way_min = wayMinutes(way)
  const now = now_ms()
  const carried = onTheWay(specimens, rows, site, now, way_min)
  if (carried.length === 0) return null
  const mine = carried
    .map(({ specimen }) => specimen)
    .filter((each) => counted.has(specimenKey(each)))
  const n = carried.filter(({ late, passed }) => late.length + passed.length > 0).length
  return (
    <section className="packCard" aria-labelledby="carried-title">
      <h2 id="carried-title">{t.title}</h2>
      <p className="soft">{t.about}</p>
      <TextField
        label={t.way}
        hint={t.wayHint}
        inputMode="numeric"
        value={way}
        onChange={setWay}
        error={way.trim() !== '' && way_min === undefined ? t.wayWrong : undefined}
      />
      <p role="status" className={n > 0 ? 'packNote' : undefined}>
        {way_min !== undefined &&
          fill(n > 0 ? t.someLate : t.noneLate, {
            n,
            at: dayAndTime(here(now + way_min * 60_000)),
          })}
      </p>
      <WideTable
        name={t.table}
        columns={[columns.with, columns.who, columns.tube, columns.arrive, columns.travels]}
      >
        {carried.map((each) => (
          <CarriedRow
            key={specimenKey(each.specimen)}
            carried={each}
            isWith={mine.includes(each.specimen)}
            named={named}
            onToggle={() => onToggle(each.specimen)}
          />
        ))}
      </WideTable>
      <DropOffForm specimens={mine} />
    </section>
  )
}
