import { DueLine } from './DueLine.tsx'
import { SavingLine } from './SavingLine.tsx'
import { SoundLine } from './SoundLine.tsx'
import { TroubleBox } from './TroubleBox.tsx'

/** What a person must know on every screen, each in a place of its own, so that nothing hides anything else. */
export function Lines() {
  return (
    <div className="lines noPrint">
      <SavingLine />
      <SoundLine />
      <DueLine />
      <TroubleBox />
    </div>
  )
}
