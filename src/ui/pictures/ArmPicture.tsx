import type { ReactNode } from 'react'
import type { ArmView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { DrawnArm } from './DrawnArm.tsx'
import { DrawnSkinPlace } from './DrawnSkinPlace.tsx'
import './armPicture.css'

interface ArmPictureProps {
  /** Both arms while one is to be chosen, one while a vein on it is. */
  readonly arms: readonly ArmView[]
  readonly choices: readonly ChoiceView[]
  readonly button: (choice: ChoiceView) => ReactNode
}

const ON_THE_DRAWING: ReadonlySet<string> = new Set(['chooseArm', 'chooseSide', 'chooseVein'])

/** The arms as they lie before the collector: what is asked is chosen on the drawing. */
export function ArmPicture({ arms, choices, button }: ArmPictureProps) {
  const { texts } = useTexts()
  const words = useServices().site.texts.pictures.arms
  const [only, other] = arms
  const isVein = only !== undefined && other === undefined
  const beside = choices.filter(({ command: { type } }) => !ON_THE_DRAWING.has(type))
  return (
    <div
      className={`answerRow armPicture ${isVein ? 'ofVeins' : 'ofArms'}`}
      role="group"
      aria-label={texts.draw.answerGroup}
    >
      {isVein ? (
        <Veins arm={only} choices={choices} button={button} />
      ) : (
        <div className="arms">
          {arms.map((arm) => (
            <OneArm key={arm.arm} arm={arm} choices={choices} button={button} />
          ))}
        </div>
      )}
      {beside.length > 0 && <div className="beside">{beside.map(button)}</div>}
      {!isVein && <p className="armLegend">{only?.skin ? words[only.skin] : words.facing}</p>}
    </div>
  )
}

interface OneArmProps extends Pick<ArmPictureProps, 'choices' | 'button'> {
  readonly arm: ArmView
}

/** An arm to choose; one that is closed has no button, only its name and the reason. */
function OneArm({ arm, choices, button }: OneArmProps) {
  const choice = choices.find(
    ({ command: { type, ...of } }) =>
      (type === 'chooseArm' || type === 'chooseSide') && 'arm' in of && of.arm === arm.arm,
  )
  return (
    <div className={`oneArm ${arm.arm}${choice ? '' : ' isClosed'}`}>
      {arm.skin ? (
        <DrawnSkinPlace side={arm.arm} place={arm.skin} isClosed={arm.closed !== undefined} />
      ) : (
        <DrawnArm arm={arm.arm} isClosed={arm.closed !== undefined} isUpright />
      )}
      {choice ? button(choice) : <p className="armName">{arm.name}</p>}
      {arm.closed !== undefined && <p className="armClosed">{arm.closed}</p>}
    </div>
  )
}

/** The veins of one arm as wide bands to tap; what is none of the drawn ones stands beside the arm. */
function Veins({ arm, choices, button }: OneArmProps) {
  const { fill } = useTexts()
  const words = useServices().site.texts.pictures.arms
  return (
    <div className={`veins ${arm.arm}`}>
      <DrawnArm arm={arm.arm} isClosed={arm.closed !== undefined} />
      {choices.flatMap((choice) =>
        choice.command.type === 'chooseVein'
          ? [
              <div key={choice.command.vein} className={`vein ${choice.command.vein}`}>
                {button(choice)}
              </div>,
            ]
          : [],
      )}
      <p className="armLegend">{fill(words.seen, { arm: arm.name })}</p>
      <p className="armLegend ofBack">{words.back}</p>
      {arm.closed !== undefined && <p className="armClosed">{arm.closed}</p>}
    </div>
  )
}
