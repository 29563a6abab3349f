import { BETWEEN_COMMANDS } from '../../core/voice/betweenCommands.ts'
import { HeardLine, Listening } from '../draw/Listening.tsx'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useTexts } from '../shared/useTexts.ts'
import './between.css'

/** Whether the app listens between patients, what it heard last, and what may be said. */
export function BetweenEars() {
  const actions = useActions()
  const { voiceOn, listenBetween } = useApp((s) => s.settings)
  const view = useApp((s) => s.between)
  const { site } = useServices()
  const { between } = useTexts().texts
  if (!voiceOn) return null
  return (
    <section className="betweenEars noPrint" aria-label={between.title}>
      <Tick
        label={between.listen}
        checked={listenBetween}
        onChange={(checked) => actions.changeSettings({ listenBetween: checked })}
      />
      {view && <Listening listening={view.listening} />}
      {view && <HeardLine heard={view.heard} />}
      {view?.answered !== undefined && <p role="status">{view.answered}</p>}
      {listenBetween && (
        <details>
          <summary>{between.what}</summary>
          <ul className="bare sayable">
            {BETWEEN_COMMANDS.map((key) => (
              <li key={key}>
                “{site.betweenPhrases.phrases[key][0]}” <span>{between.commands[key]}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
