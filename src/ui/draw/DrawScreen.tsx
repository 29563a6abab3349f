import { useEffect, useRef, useState } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { SHEET_KEY } from '../../app/view/places.ts'
import type { ChoiceView, DrawView } from '../../app/view/drawViewTypes.ts'
import { LivingRack } from '../pictures/LivingRack.tsx'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Lines } from '../shared/Lines.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { useKeyReader } from '../shared/useKeyReader.ts'
import { CoachLine } from './CoachLine.tsx'
import { DrawBar } from './DrawBar.tsx'
import { DrawFoot } from './DrawFoot.tsx'
import { DrawStage } from './DrawStage.tsx'
import { EarsBar } from './EarsBar.tsx'
import { ElsewhereBar } from './ElsewhereBar.tsx'
import { HappenedSheet } from './HappenedSheet.tsx'
import { SafetyRow } from './SafetyRow.tsx'
import { ScanQuestion } from './ScanQuestion.tsx'
import { WakeLine } from './WakeLine.tsx'
import { formOf } from './StepForm.tsx'
import { useAnswerArrows } from './useAnswerArrows.ts'
import { useHeldEars } from './useHeldEars.ts'
import { useHold } from './useHold.ts'
import { useRoom } from './useRoom.ts'
import './draw.css'
import './say.css'
import './panels.css'
import './choices.css'
import './alarm.css'
import './sheet.css'
import './upright.css'
import './phone.css'

/** The choice a key stands for at this moment. While a question is open only its answers count. */
function choiceForKey(view: DrawView, key: string): ChoiceView | undefined {
  if (view.ask) {
    const answers = [view.ask.yes, view.ask.no, ...view.ask.others]
    return (
      answers.find((choice) => choice.key === key) ??
      view.always.find((c) => c.tone === 'stop' && c.key === key)
    )
  }
  return [...view.choices, ...view.always].find((choice) => choice.key === key)
}

/** What is asked now: when it changes, presses wait for a moment. */
const askedNow = ({ step, ask, severe, choices, closed }: DrawView): string =>
  JSON.stringify([
    step.id,
    ask?.question,
    severe?.kind,
    choices.find(({ place }) => place === 'main')?.command,
    closed?.outcome,
  ])

/** One step on one screen. Voice, touch, keys and scanner end in the same commands. */
export function DrawScreen({ drawId }: { readonly drawId: string }) {
  const view = useApp((s) => s.draw)
  // A view of any other draw is never shown here.
  return view?.drawId === drawId ? <OpenDraw view={view} /> : <NoRecord />
}

function OpenDraw({ view }: { readonly view: DrawView }) {
  const actions = useActions()
  const [sheet, setSheet] = useState(false)
  const heading = useRef<HTMLHeadingElement>(null)
  const [scanned, setScanned] = useState<string>()
  const asked = askedNow(view)
  const { isHeld, takes } = useHold(`${asked} ${sheet ? 'sheet' : ''}`)
  const [wholeAt, setWholeAt] = useState<string>()
  const take = (command: Command, source: Source): void => {
    setSheet(false)
    setScanned(undefined)
    // A button that was pressed would keep the next Space for itself.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
    void actions.command(command, source)
  }
  const choose = (choice: ChoiceView, source: Source): void => {
    // What stops is taken at any moment; all else waits until the eye has seen what it is for.
    if (choice.tone !== 'stop' || choice.place === 'main') if (!takes()) return
    if (choice.command.type === 'sayAgain') setWholeAt(asked)
    take(choice.command, source)
  }
  const openSheet = (): void => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
    if (takes()) setSheet(true)
  }
  useAnswerArrows()
  const ears = useHeldEars(view)
  const page = useRoom()

  // With the step the place of reading moves to its instruction, unless somebody is typing.
  useEffect(() => {
    if (!sheet && document.activeElement === document.body) {
      heading.current?.focus({ preventScroll: true })
      window.scrollTo({ top: 0 })
    }
  }, [view.step.id, view.ask, view.severe, sheet])

  const readLabel = (text: string): void => take({ type: 'scanLabel', text }, 'scanner')
  useKeyReader((act) => {
    // What comes after the close is recorded by touch alone.
    if (view.closed) return false
    if (act.kind === 'scan') readLabel(act.text)
    else if (act.kind === 'unsure') setScanned(act.text)
    else if (sheet) return false
    else if (act.key === SHEET_KEY && !view.ask) openSheet()
    else {
      const choice = choiceForKey(view, act.key)
      if (choice) choose(choice, 'keys')
    }
    return true
  })

  const isHeard = (choice: ChoiceView): boolean =>
    view.heard?.outcome === 'accepted' && choice.phrases.includes(view.heard.text)
  const isUrgent = view.severe?.isUrgent === true
  const saidAgain = view.always.some((each) => each.command.type === 'sayAgain' && isHeard(each))
  const classes = [
    'draw',
    view.severe ? (isUrgent ? 'isSevere' : 'wasSevere') : '',
    view.mainClock ? 'hasClock' : 'noClock',
    formOf(view) ? 'hasForm' : '',
    view.closed ? 'isClosed' : '',
  ]
  return (
    <div
      className={classes.join(' ')}
      data-screen="draw"
      data-step={view.step.id}
      data-held={isHeld || undefined}
    >
      <div className="drawPage" inert={sheet} ref={page}>
        <div className="top">
          <DrawBar view={view} isHeldOnly={ears.isRequired} />
          {view.broken !== undefined && (
            <p className="troubleBox" role="alert">
              {view.broken}
            </p>
          )}
          {view.elsewhere && <ElsewhereBar elsewhere={view.elsewhere} />}
          <Lines />
          <WakeLine />
          {view.coach && <CoachLine coach={view.coach} />}
          {scanned !== undefined && (
            <ScanQuestion
              text={scanned}
              onYes={() => readLabel(scanned)}
              onNo={() => setScanned(undefined)}
            />
          )}
        </div>
        <main>
          <DrawStage
            view={view}
            heading={heading}
            isWhole={saidAgain || wholeAt === asked}
            isHeard={isHeard}
            isHeld={isHeld}
            onSend={(command) => take(command, 'touch')}
            onChoose={choose}
          />
          {!isUrgent && <LivingRack rack={view.rack} />}
          <DrawFoot
            view={view}
            asked={asked}
            isHeard={isHeard}
            isHeld={isHeld}
            onChoose={choose}
            onSend={(command) => take(command, 'touch')}
            onSheet={openSheet}
          />
        </main>
        {!view.closed && !view.elsewhere && (
          <SafetyRow view={view} isHeard={isHeard} isHeld={isHeld} onChoose={choose} />
        )}
        {ears.hasBar && (
          <EarsBar
            isOpen={view.listening.isHeld ?? false}
            isRequired={ears.isRequired}
            onMove={(move) => actions.holdEars(move)}
          />
        )}
      </div>
      {sheet && (
        <HappenedSheet
          view={view}
          isHeld={isHeld}
          onChoose={choose}
          onSend={(command) => take(command, 'touch')}
          onClose={() => setSheet(false)}
        />
      )}
    </div>
  )
}
