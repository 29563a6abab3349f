import { dayOf } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { BeginAnewNews } from './BeginAnewNews.tsx'
import { SharedNews } from './SharedNews.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import { isPassOver, type MemberView } from './useSetup.ts'

/** What a member is told besides the state of its link: its pass, what it has become, what it does not believe. */
export function MemberNews({ view }: { readonly view: MemberView }) {
  return (
    <>
      <PassLine view={view} />
      <NewPass view={view} />
      <SharedNews />
      <RefusedEdition view={view} />
    </>
  )
}

function PassLine({ view }: { readonly view: MemberView }) {
  const { now_ms } = useServices()
  const { clinic, fill } = useClinicTexts()
  const { pass } = clinic.setup
  const isOver = isPassOver(view, now_ms())
  const isRefused = useApp((s) => s.clinic?.link === 'refused')
  // Until when it would count is not so where the hub does not take it.
  if (view.passEnds_ms === undefined || (isRefused && !isOver)) return null
  const day = dayOf(here(view.passEnds_ms))
  return (
    <p className={isOver ? 'warnBox' : 'soft'}>{fill(isOver ? pass.ended : pass.ends, { day })}</p>
  )
}

/** This device was made a desk: it connects as one when the person says so, never in a draw. */
function NewPass({ view }: { readonly view: MemberView }) {
  const { setup } = useClinicTexts().clinic
  if (!view.hasNewPass) return null
  return (
    <BeginAnewNews drawing={setup.drawing} button={setup.useNewPass}>
      <p>{setup.newPass}</p>
    </BeginAnewNews>
  )
}

/** An edition of the list of devices that does not check: nothing of it counts. */
function RefusedEdition({ view }: { readonly view: MemberView }) {
  const { clinic, fill } = useClinicTexts()
  const { refusedEdition, editionFaults } = clinic.setup
  if (!view.refused) return null
  const { edition, why } = view.refused
  const named = why === 'keysNotForUs' || why === 'badSignature' || why === 'noDesk' ? why : 'other'
  return (
    <p className="warnBox" role="alert">
      {fill(refusedEdition, { edition, why: editionFaults[named] })}
    </p>
  )
}
