import { fillText } from '../../core/basics/fillText.ts'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'

interface ScanQuestionProps {
  readonly text: string
  readonly onYes: () => void
  readonly onNo: () => void
}

/** Keys that may have been a scan. Touch alone answers: a key could be the next scan. */
export function ScanQuestion({ text, onYes, onNo }: ScanQuestionProps) {
  const { scan } = useDeviceTexts()
  return (
    <div className="notice warn scanQuestion" role="alert">
      <p>
        <strong>{scan.question}</strong> {fillText(scan.seen, { text })}
      </p>
      <div className="row">
        <button type="button" className="choice plain" onClick={onYes}>
          <span className="label">{scan.yes}</span>
        </button>
        <button type="button" className="choice plain" onClick={onNo}>
          <span className="label">{scan.no}</span>
        </button>
      </div>
    </div>
  )
}
