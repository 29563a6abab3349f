import { useApp, useServices } from '../shared/appContext.tsx'
import { DeviceList } from './DeviceList.tsx'
import { Invitation } from './Invitation.tsx'
import { JoinForm } from './JoinForm.tsx'
import { LeaveClinic } from './LeaveClinic.tsx'
import { SharedPart } from './SharedPart.tsx'
import { isPassOver, type MemberView } from './useSetup.ts'

/** The clinic as one of its devices sees it. */
export function ClinicMemberPart({ view }: { readonly view: MemberView }) {
  const link = useApp((s) => s.clinic?.link)
  const { now_ms } = useServices()
  const name = view.devices.find(({ id }) => id === view.device)?.name
  const isOver = isPassOver(view, now_ms())
  const mustJoin = link === 'refused' || isOver
  return (
    <>
      {mustJoin && name !== undefined && <JoinForm isBusy={view.isBusy} name={name} />}
      {view.isDesk && !view.isRival && <Invitation view={view} />}
      <DeviceList view={view} />
      <SharedPart view={view} />
      <LeaveClinic view={view} />
    </>
  )
}
