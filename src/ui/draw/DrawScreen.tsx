import { useEffect, useRef, useState } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView, DrawView } from '../../app/view/drawViewTypes.ts'
import { LivingRack } from '../pictures/LivingRack.tsx'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Lines } from '../shared/Lines.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { AskPanel } from './AskPanel.tsx'
import { BigClock, SmallClocks } from './BigClock.tsx'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'
import { CoachLine } from './CoachLine.tsx'
import { ClosedPanel } from './ClosedPanel.tsx'
import { ElsewhereBar } from './ElsewhereBar.tsx'
import { DrawBar } from './DrawBar.tsx'
import { HappenedSheet } from './HappenedSheet.tsx'
import { HeardLine } from './Listening.tsx'
import { SafetyRow } from './SafetyRow.tsx'
import { SeverePanel } from './SeverePanel.tsx'
import { StepPanel } from './StepPanel.tsx'
import { WakeLine } from './WakeLine.tsx'
import { ScanQuestion } from './ScanQuestion.tsx'
import { useKeyReader } from '../shared/useKeyReader.ts'
import './draw.css'
import './panels.css'
import './choices.css'
import './takeover.css'

/** Two rows of five on a tablet, with the tile that opens the sheet. */
const SHOWN_n = 9

/** The choice a key stands for at this moment. While a question is open only its answers count. */
function choiceForKey(view: DrawView, key: string): ChoiceView | undefined {
  if (view.ask) {
    const answers = [view.ask.yes, view.ask.no, ...view.ask.others]
    return answers.find((choice) => choice.key === key)
  }
  const open = [...view.choices, ...view.always]
  return open.find((c) => c.key === key) ?? (key === 'Space' ? open.find((c) => c.main) : undefined)
}

/** The choices beside the main one. Where there are too many for one look, those without a key wait in the sheet. */
function choicesOnScreen(view: DrawView): readonly ChoiceView[] {
  const rest = view.choices.filter((choice) => !choice.main)
  return rest.length > SHOWN_n ? rest.filter((choice) => choice.key !== undefined) : rest
}

/** One step on one screen. Voice, touch, keys and scanner end in the same commands. */
export function DrawScreen({ drawId }: { readonly drawId: string }) {
  const view = useApp((s) => s.draw)
  // A view of any other draw is never shown here.
  return view?.drawId === drawId ? <OpenDraw view={view} /> : <NoRecord />
}

function OpenDraw({ view }: { readonly view: DrawView }) {
  const actions = useActions()
  const { draw } = useTexts().texts
  const [sheet, setSheet] = useState(false)
  const heading = useRef<HTMLHeadingElement>(null)
  const [asked, setAsked] = useState<string>()
  const take = (command: Command, source: Source): void => {
    setSheet(false)
    setAsked(undefined)
    // A button that was pressed would keep the next Space for itself.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
    void actions.command(command, source)
  }
  const choose = (choice: ChoiceView, source: Source): void => take(choice.command, source)

  // With the step the place of reading moves to its instruction, unless somebody is typing.
  useEffect(() => {
    if (!sheet && document.activeElement === document.body) heading.current?.focus()
  }, [view.step.id, view.step.number, view.ask, view.severe, sheet])

  const readLabel = (text: string): void => take({ type: 'scanLabel', text }, 'scanner')
  useKeyReader((act) => {
    // What comes after the close is recorded by touch alone.
    if (view.closed) return false
    if (act.kind === 'scan') readLabel(act.text)
    else if (act.kind === 'unsure') setAsked(act.text)
    else if (sheet) return false
    else {
      const choice = choiceForKey(view, act.key)
      if (choice) choose(choice, 'keys')
    }
    return true
  })

  const sure = view.ask !== undefined
  const severe = view.severe !== undefined
  const main = view.choices.find((choice) => choice.main)
  const rest = choicesOnScreen(view)
  return (
    <div className={`draw ${severe ? 'isSevere' : ''} ${view.mainClock ? 'hasClock' : 'noClock'}`}>
      <div className="drawPage" inert={sheet}>
        <div>
          <DrawBar view={view} />
          {view.broken !== undefined && (
            <p className="troubleBox" role="alert">
              {view.broken}
            </p>
          )}
          {view.elsewhere && <ElsewhereBar elsewhere={view.elsewhere} />}
          <Lines />
          <WakeLine />
          {view.coach && <CoachLine coach={view.coach} />}
        </div>
        <main>
          <div className="stage">
            {view.notice && !severe && (
              <p
                className={`notice ${view.notice.tone}`}
                role={view.notice.tone === 'warn' ? 'alert' : 'status'}
              >
                {view.notice.tone === 'warn' && <strong>{draw.note} </strong>}
                {view.notice.text}
              </p>
            )}
            {asked !== undefined && (
              <ScanQuestion
                text={asked}
                onYes={() => readLabel(asked)}
                onNo={() => setAsked(undefined)}
              />
            )}
            {view.ask ? (
              <AskPanel ask={view.ask} heading={heading} onChoose={choose} />
            ) : view.severe ? (
              <SeverePanel severe={view.severe} heading={heading} />
            ) : (
              <StepPanel
                view={view}
                heading={heading}
                onSend={(command) => take(command, 'touch')}
              />
            )}
            {view.mainClock && <BigClock clock={view.mainClock} />}
            <SmallClocks clocks={view.otherClocks} />
            <HeardLine heard={view.heard} />
          </div>
          {view.elsewhere ? null : view.closed ? (
            <ClosedPanel drawId={view.drawId} closed={view.closed} />
          ) : (
            !sure && (
              <div
                className={rest.length <= 3 ? 'answers few' : 'answers'}
                role="group"
                aria-label={draw.whatNow}
              >
                {main && <ChoiceButton choice={main} size="main" onChoose={choose} />}
                <div className="choices">
                  {rest.map((choice) => (
                    <ChoiceButton key={choiceId(choice)} choice={choice} onChoose={choose} />
                  ))}
                  <button
                    type="button"
                    className="choice plain else"
                    onClick={() => setSheet(true)}
                  >
                    <span className="label">{draw.whatElse}</span>
                  </button>
                </div>
              </div>
            )
          )}
          {!severe && <LivingRack rack={view.rack} />}
        </main>
        {!view.closed && !view.elsewhere && <SafetyRow always={view.always} onChoose={choose} />}
      </div>
      {sheet && (
        <HappenedSheet
          view={view}
          more={view.choices.filter((choice) => !choice.main && !rest.includes(choice))}
          onChoose={choose}
          onSend={(command) => take(command, 'touch')}
          onClose={() => setSheet(false)}
        />
      )}
    </div>
  )
}
