import type { ClinicSetupView } from '../../app/hub/setup/clinicSetupView.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Section } from '../shared/Section.tsx'
import { ClinicLine } from './ClinicLine.tsx'
import { ClinicMoved } from './ClinicMoved.tsx'
import { MemberNews } from './MemberNews.tsx'
import { ClinicMemberPart } from './ClinicMemberPart.tsx'
import { FoundForm } from './FoundForm.tsx'
import { JoinForm } from './JoinForm.tsx'
import { NotInRecords } from './NotInRecords.tsx'
import { SiteFaults } from './SiteFaults.tsx'
import { ToldLine } from './ToldLine.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import './clinic.css'

/** Founding, joining and looking after the clinic, and what its hub sees. */
export function ClinicScreen() {
  const view = useApp((s) => s.clinicSetup)
  const actions = useActions()
  const { setup } = useClinicTexts().clinic
  return (
    <Frame
      title={setup.title}
      back={{ to: 'settings', onBack: () => void actions.go({ name: 'settings' }) }}
    >
      <p className="lead">{setup.about}</p>
      <div className="clinicStatus">
        <ClinicMoved />
        {view && <Standing view={view} />}
        {view && 'isBusy' in view && view.siteFaults && (
          <SiteFaults about={setup.keptSite} faults={view.siteFaults} />
        )}
        <ClinicLine />
        <NotInRecords />
        {view?.kind === 'member' && <MemberNews view={view} />}
        {view && <ToldLine view={view} />}
      </div>
      {view && <Parts view={view} />}
      <Section title={setup.sees.title} about="">
        <p>{setup.sees.text}</p>
      </Section>
    </Frame>
  )
}

/** Who this device is, in one sentence. */
function Standing({ view }: { readonly view: ClinicSetupView }) {
  const { clinic, fill } = useClinicTexts()
  const { stands, badSite } = clinic.setup
  switch (view.kind) {
    case 'badSite':
      return <SiteFaults about={badSite} faults={view.faults} />
    case 'locked':
      return <p className="clinicStands">{stands.locked}</p>
    case 'none':
      return <p className="clinicStands">{stands.none}</p>
    case 'member': {
      const name = view.devices.find(({ id }) => id === view.device)?.name ?? view.device
      const values = { name, clinic: view.clinic }
      if (view.isRival) {
        return (
          <p className="warnBox" role="alert">
            {fill(stands.rival, values)}
          </p>
        )
      }
      return (
        <p className="clinicStands">{fill(view.isDesk ? stands.desk : stands.member, values)}</p>
      )
    }
  }
}

function Parts({ view }: { readonly view: ClinicSetupView }) {
  switch (view.kind) {
    case 'none':
      return (
        <>
          <JoinForm isBusy={view.isBusy} joining={view.joining} />
          {!view.joining && <FoundForm clinic={view.clinic} isBusy={view.isBusy} />}
        </>
      )
    case 'member':
      return <ClinicMemberPart view={view} />
    case 'badSite':
    case 'locked':
      return null
  }
}
