import { useEffect, useState } from 'react'
import { NOTHING_COUNTED, scanned, toggled, type CountScan } from '../../core/courier/count.ts'
import type { DropOff } from '../../core/courier/dropOffs.ts'
import { packList } from '../../core/courier/packList.ts'
import { specimenKey, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useKeyReader } from '../shared/useKeyReader.ts'
import { useToStart } from '../shared/useToStart.ts'
import { BagSteps } from './BagSteps.tsx'
import { CarriedSection } from './CarriedSection.tsx'
import { DroppedSection } from './DroppedSection.tsx'
import { DropOffPaper } from './DropOffPaper.tsx'
import { ManifestPaper } from './ManifestPaper.tsx'
import { PackCard } from './PackCard.tsx'
import { SentSection } from './SentSection.tsx'
import { useCourierTexts } from './useCourierTexts.ts'
import './courier.css'

type Printed = { readonly pack: SentPack } | { readonly drop: DropOff }

/** What waits for a courier, counted and handed over; and what became of what left. */
export function CourierScreen() {
  const { specimens, sent, dropped, unread } = useApp((s) => s.courier)
  const { site, page } = useServices()
  const { texts, fill, packName } = useCourierTexts()
  const [counted, setCounted] = useState(NOTHING_COUNTED)
  const [scan, setScan] = useState<CountScan & { readonly text: string }>()
  const [named, setNamed] = useState(false)
  // It stays on the paper, one at a time: some browsers print only after the call.
  const [printed, setPrinted] = useState<Printed>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  const groups = packList(specimens, site.laboratories, site.catalogue)

  useKeyReader((act) => {
    if (act.kind === 'choose') return false
    const read = scanned(counted, specimens, act.text)
    setCounted(read.counted)
    setScan({ ...read, text: act.text })
    return true
  })

  const packOf = (specimen: PackSpecimen | undefined): string => {
    const group = groups.find((each) => specimen && each.specimens.includes(specimen))
    return group ? packName(group) : ''
  }
  const toggle = (specimen: PackSpecimen): void => setCounted(toggled(counted, specimen))
  const countAll = (all: readonly PackSpecimen[]): void =>
    setCounted(
      all.reduce((now, each) => (now.has(specimenKey(each)) ? now : toggled(now, each)), counted),
    )

  return (
    <Frame title={texts.title} back={useToStart()}>
      <p className="lead">{texts.about}</p>
      {unread.length > 0 && <p className="warnBox">{fill(texts.unread, { n: unread.length })}</p>}
      {groups.length === 0 ? (
        <p>{texts.nothing}</p>
      ) : (
        <>
          <p className="soft">{texts.countAbout}</p>
          <Tick label={texts.names} checked={named} onChange={setNamed} />
          <BagSteps />
        </>
      )}
      <p className="scanLine" role="status" data-of={scan?.of}>
        {scan &&
          fill(texts.scan[scan.of], {
            number: scan.specimen?.number ?? '',
            text: scan.text,
            pack: packOf(scan.specimen),
          })}
      </p>
      {groups.map((group) => (
        <PackCard
          key={group.key}
          group={group}
          counted={counted}
          named={named}
          onToggle={toggle}
          onAll={() => countAll(group.specimens)}
        />
      ))}
      <CarriedSection specimens={specimens} counted={counted} named={named} onToggle={toggle} />
      <SentSection sent={sent} onPrint={(pack) => setPrinted({ pack })} />
      <DroppedSection dropped={dropped} onPrint={(drop) => setPrinted({ drop })} />
      {printed && 'pack' in printed && <ManifestPaper pack={printed.pack} />}
      {printed && 'drop' in printed && <DropOffPaper drop={printed.drop} />}
    </Frame>
  )
}
