import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { LaterActs } from '../shared/LaterActs.tsx'
import { WordingOffer } from '../ownVoice/WordingOffer.tsx'
import { useBackKey } from '../shared/useBackKey.ts'
import { useKeyReader } from '../shared/useKeyReader.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useHold } from './useHold.ts'

interface ClosedPanelProps {
  readonly drawId: string
  readonly closed: NonNullable<DrawView['closed']>
}

interface Onward {
  readonly key: string
  readonly label: string
  readonly isMain?: true
  readonly onChoose: () => void
}

/** The draw is closed: what it came to, where to go from here, and what its tubes still wait for. */
export function ClosedPanel({ drawId, closed }: ClosedPanelProps) {
  const actions = useActions()
  const { texts } = useTexts()
  const { figures } = useServices().site.texts
  const { draw, app } = texts
  const home = (): void => void actions.go({ name: 'home' })
  const onward: readonly Onward[] = [
    {
      key: '1',
      label: draw.readNote,
      isMain: true,
      onChoose: () => void actions.go({ name: 'chart', drawId }),
    },
    {
      key: '2',
      label: draw.labels,
      onChoose: () => void actions.go({ name: 'labels', drawId, from: 'draw' }),
    },
    { key: '3', label: draw.nextPatient, onChoose: () => actions.newDraw() },
    ...(closed.script !== undefined
      ? [
          {
            key: '4',
            label: figures.score.open,
            onChoose: () => void actions.go({ name: 'score', drawId }),
          },
        ]
      : []),
  ]
  // The press that closed the draw, or its second half, leads nowhere.
  const { isHeld, takes } = useHold(drawId)
  useKeyReader((act) => {
    if (act.kind !== 'choose') return true
    const chosen = onward.find(({ key }) => key === act.key)
    if (chosen && takes()) chosen.onChoose()
    return chosen !== undefined
  })
  useBackKey(() => {
    if (takes()) home()
  })
  return (
    <section className="closed" aria-label={draw.closed}>
      <p>{closed.text}</p>
      <div className="choices">
        {onward.map((each) => (
          <OnwardButton key={each.key} onward={each} isHeld={isHeld} shown={each.key} />
        ))}
        <OnwardButton
          onward={{ key: 'Escape', label: app.backTo.start, onChoose: home }}
          isHeld={isHeld}
          shown={app.backKey}
        />
      </div>
      <LaterActs drawId={drawId} />
      <WordingOffer drawId={drawId} />
    </section>
  )
}

interface OnwardButtonProps {
  readonly onward: Onward
  readonly isHeld: boolean
  /** The key as it is printed on the button. */
  readonly shown: string
}

function OnwardButton({ onward: { label, key, isMain, onChoose }, ...rest }: OnwardButtonProps) {
  return (
    <button
      type="button"
      className={isMain ? 'choice plain go' : 'choice plain'}
      aria-keyshortcuts={key}
      aria-disabled={rest.isHeld || undefined}
      onClick={onChoose}
    >
      <span className="label">{label}</span>
      <kbd aria-hidden="true">{rest.shown}</kbd>
    </button>
  )
}
