import type { ReactNode, Ref } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { IdentityPanel } from './IdentityPanel.tsx'
import { isRestated } from './isRestated.ts'
import { LabelsPanel } from './LabelsPanel.tsx'
import { Say } from './Say.tsx'

interface StepPanelProps {
  readonly view: DrawView
  readonly heading: Ref<HTMLHeadingElement>
  /** "Say again" was said at this step: all its points are shown. */
  readonly isWhole: boolean
  /** The answers that the step asks for. */
  readonly children: ReactNode
}

/** The one step: its instruction, what holds for this patient, and what has to be read beside it. */
export function StepPanel({ view, heading, isWhole, children }: StepPanelProps) {
  const { step, notice, coded } = view
  const { texts, fill } = useTexts()
  const spoken = coded === undefined ? [] : [fill(texts.draw.spoken, { words: coded })]
  const isLabels = step.id === 'labels' && view.labels.length > 0
  const beside = isLabels ? <LabelsPanel view={view}>{children}</LabelsPanel> : children
  if (notice?.large !== undefined) {
    const detail = isRestated(notice.text, notice.large) ? [] : [notice.text]
    return (
      <Say
        above={[...spoken, fill(texts.draw.now, { step: step.instruction })].join(' ')}
        large={notice.large}
        points={detail}
        heading={heading}
        isNotice
      >
        {beside}
      </Say>
    )
  }
  const title = isRestated(step.title, step.instruction) ? undefined : step.title
  const told = notice && noticeLine(notice.text, notice.tone === 'warn' ? texts.draw.note : '')
  return (
    <Say
      above={[...spoken, told ?? step.about ?? title ?? ''].join(' ').trim() || undefined}
      large={step.instruction}
      points={isWhole ? step.points : step.points.slice(0, step.shown_n)}
      heading={heading}
    >
      {(step.id === 'identity' || step.id === 'wristband') && (
        <IdentityPanel identifiers={view.identifiers} />
      )}
      {beside}
    </Say>
  )
}

/** What is told without a hand having to do anything: one line, the instruction stays. */
const noticeLine = (text: string, head: string): string => (head === '' ? text : `${head} ${text}`)
