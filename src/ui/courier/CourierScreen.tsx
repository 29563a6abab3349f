import { useEffect, useState } from 'react'
import type { Text } from '../../core/basics/fillText.ts'
import {
  packToCount,
  scanned,
  toggled,
  withAll,
  type Counted,
  type CountScan,
} from '../../core/courier/count.ts'
import type { DropOff } from '../../core/courier/dropOffs.ts'
import { packList } from '../../core/courier/packList.ts'
import { isHeldBack, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { BetweenEars } from '../between/BetweenEars.tsx'
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
  const { counted, said } = useApp((s) => s.count)
  const listens = useApp((s) => s.between !== undefined)
  const { courier } = useActions()
  const { site, page } = useServices()
  const { texts, fill, packName } = useCourierTexts()
  const [scan, setScan] = useState<CountScan & { readonly text: string }>()
  const [named, setNamed] = useState(false)
  // It stays on the paper, one at a time: some browsers print only after the call.
  const [printed, setPrinted] = useState<Printed>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  const { phrases } = site.betweenPhrases
  const held = specimens.filter(isHeldBack)
  const gone = specimens.filter((each) => each.isOfAnother && !isHeldBack(each))
  const setCounted = (next: Counted): void => courier.count(next)
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
  const next = listens ? packToCount(groups, counted) : undefined

  return (
    <Frame title={texts.title} back={useToStart()}>
      <p className="lead">{texts.about}</p>
      {unread.length > 0 && <p className="warnBox">{fill(texts.unread, { n: unread.length })}</p>}
      <StopBox text={texts.heldBack} specimens={held} />
      <StopBox text={texts.goneOfAnother} specimens={gone} />
      {groups.length === 0 ? (
        <p>{texts.nothing}</p>
      ) : (
        <>
          <p className="soft">{texts.countAbout}</p>
          <Tick label={texts.names} checked={named} onChange={setNamed} />
          <BagSteps />
          <BetweenEars />
        </>
      )}
      <p className="scanLine" role="status" data-of={said ? said.of : scan?.of}>
        {said
          ? fill(texts.packSaid[said.of], {
              n: said.pack.specimens.length,
              pack: packName(said.pack),
              back: phrases.takeBack[0] ?? '',
            })
          : scan &&
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
          isNext={group.key === next?.key}
          onAll={() => setCounted(withAll(counted, group))}
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

interface StopBoxProps {
  /** `{n}`, `{numbers}` */
  readonly text: Text
  readonly specimens: readonly PackSpecimen[]
}

/** Specimens of another person than their labels say; nothing where there are none. */
function StopBox({ text, specimens }: StopBoxProps) {
  const { fill } = useCourierTexts()
  const numbers = specimens.map(({ number }) => number).join(', ')
  if (specimens.length === 0) return null
  return <p className="stopBox">{fill(text, { n: specimens.length, numbers })}</p>
}
