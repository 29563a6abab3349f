import type { ClinicSetupView, SetupTold } from '../../app/hub/setup/clinicSetupView.ts'
import type { ClinicTexts } from '../../app/site/clinicTexts.ts'
import type { Fill } from '../shared/useTexts.ts'
import { useClinicTexts } from './useClinicTexts.ts'

/** What came of the last act, until the next one. */
export function ToldLine({ view }: { readonly view: ClinicSetupView }) {
  const { clinic, fill } = useClinicTexts()
  const told = 'told' in view ? view.told : undefined
  const isBusy = 'isBusy' in view && view.isBusy
  const isDone = told?.kind === 'done'
  return (
    <div role="status">
      {isBusy && <p className="soft">{clinic.setup.busy}</p>}
      {told && <p className={isDone ? 'doneLine' : 'warnBox'}>{toldText(told, clinic, fill)}</p>}
    </div>
  )
}

function toldText(told: SetupTold, { setup, faults }: ClinicTexts, fill: Fill): string {
  switch (told.kind) {
    case 'done':
      return fill(setup.done[told.act], { device: told.device ?? '' })
    case 'failed': {
      const why = told.fault === undefined ? setup.failed.unknown : faults[told.fault]
      return fill(setup.failed[told.act], { why })
    }
    case 'joinRefused': {
      if (told.why !== 'wrongCode') return setup.joinRefused[told.why]
      const { tries: n = 0 } = told
      return n === 0 ? setup.joinRefused.wrongLast : fill(setup.joinRefused.wrongCode, { n })
    }
    case 'otherDeskFile':
      return fill(setup.told.otherDeskFile, { clinic: told.clinic })
    case 'halfRevoked':
      return fill(setup.told.halfRevoked, { device: told.device })
    default:
      return setup.told[told.kind]
  }
}
