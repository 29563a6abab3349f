import { useEffect, useRef } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView, DrawView } from '../../app/view/drawViewTypes.ts'
import { NextDoseForm } from '../shared/NextDoseForm.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'
import { SheetClocks } from './SheetClocks.tsx'
import { beyondEdge, SafetyRow } from './SafetyRow.tsx'
import { DecisionForm } from './DecisionForm.tsx'
import { SetForm } from './SetForm.tsx'
import { PatientSection } from '../patient/PatientSection.tsx'
import {
  ExposureForm,
  HandOverForm,
  NotPreparedForm,
  NoteForm,
  OtherTube,
  ShortFillForm,
} from './WriteForms.tsx'

/** What a provider may decide while the draw goes on. */
const IN_THE_DRAW = ['missingTube', 'redraw', 'volumeLimit', 'restrictedArm'] as const

/** Steps at which the patient is told something. */
const TOLD: Readonly<Partial<Record<string, 'before' | 'after'>>> = {
  consent: 'before',
  aftercare: 'after',
}

interface HappenedSheetProps {
  readonly view: DrawView
  /** Presses wait at this moment. */
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
  readonly onSend: (command: Command) => void
  readonly onClose: () => void
}

/** Everything that can be recorded though the step does not call for it. The step stays where it is behind it. */
export function HappenedSheet({ view, isHeld, onChoose, onSend, onClose }: HappenedSheetProps) {
  const { draw } = useTexts().texts
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    heading.current?.focus()
  }, [])
  const more = view.choices.filter(({ place }) => place === 'sheet')
  const shown = new Set(view.choices.map(choiceId))
  const facts = [...more, ...view.happened.filter((choice) => !shown.has(choiceId(choice)))]
  // What the step asks to be told stands above all else; at any other step it is looked for further down.
  const told = TOLD[view.step.id]
  const patient = <PatientSection view={view.patient} first={told ?? 'before'} onSend={onSend} />
  const tubeIsOn = view.rack.some((tube) => tube.status === 'on')
  return (
    <div
      className="sheet"
      role="dialog"
      aria-modal="true"
      aria-labelledby="sheet-title"
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose()
      }}
    >
      <header>
        <h1 id="sheet-title" tabIndex={-1} ref={heading}>
          {draw.whatElseTitle}
        </h1>
        <button type="button" className="choice plain" onClick={onClose}>
          <span className="label">{draw.toDraw}</span>
          <kbd>{draw.escape}</kbd>
        </button>
      </header>
      <SheetClocks view={view} />
      {told && patient}
      <p className="soft">{draw.whatElseAbout}</p>
      <div className="choices onPhone">
        {beyondEdge(view.always).map((choice) => (
          <ChoiceButton
            key={choiceId(choice)}
            choice={choice}
            isHeld={isHeld && choice.tone !== 'stop'}
            onChoose={onChoose}
          />
        ))}
      </div>
      <div className="choices">
        {[...facts, view.otherVoice].map((choice) => (
          <ChoiceButton
            key={choiceId(choice)}
            choice={choice}
            isHeld={isHeld}
            onChoose={onChoose}
          />
        ))}
      </div>
      <OtherTube rack={view.rack} onSend={onSend} />
      {!told && patient}
      <section className="write">
        <h2>{draw.write}</h2>
        {view.doseAsked !== undefined && <NextDoseForm series={view.doseAsked} />}
        <NoteForm onSend={onSend} />
        {view.exposure && <ExposureForm onSend={onSend} />}
        {tubeIsOn && <ShortFillForm of="tube" onSend={onSend} />}
        {isPulled(view) && <ShortFillForm of="syringe" onSend={onSend} />}
        {view.step.id === 'preparation' && <NotPreparedForm onSend={onSend} />}
        <HandOverForm onSend={onSend} />
        <h3>{draw.decision}</h3>
        <DecisionForm subjects={IN_THE_DRAW} onSend={onSend} />
        {view.needleSet && (
          <>
            <h3>{draw.otherSet}</h3>
            <SetForm set={view.needleSet} onSend={onSend} />
          </>
        )}
      </section>
      <SafetyRow view={view} isHeld={isHeld} onChoose={onChoose} />
    </div>
  )
}

/** How much came into a syringe can be told now. */
const isPulled = ({ choices, happened }: DrawView): boolean =>
  [...choices, ...happened].some(({ command }) => command.type === 'syringeShort')
