import { Frame } from '../shared/Frame.tsx'
import { useToStart } from '../shared/useToStart.ts'
import { useClinicTexts } from './useClinicTexts.ts'

/** While the clinic's screen is loaded. */
export function ClinicWait() {
  const { setup } = useClinicTexts().clinic
  return (
    <Frame title={setup.title} back={useToStart()}>
      <p role="status">{setup.busy}</p>
    </Frame>
  )
}
