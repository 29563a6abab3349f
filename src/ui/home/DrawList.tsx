import type { AppState } from '../../app/appApi.ts'
import { useActions } from '../shared/appContext.tsx'

type Draw = AppState['draws'][number]

const opened = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' })

function DrawName({ draw }: { readonly draw: Draw }) {
  return (
    <span className="drawName">
      <strong>{draw.patientName}</strong>
      {draw.invented && <span className="tag">Invented</span>}
      <span className="soft figures">{opened.format(draw.opened_ms)}</span>
    </span>
  )
}

/** Draws that were begun and not ended. Nothing on the first screen stands above them. */
export function UnfinishedDraws({ draws }: { readonly draws: readonly Draw[] }) {
  const actions = useActions()
  if (draws.length === 0) return null
  return (
    <section className="unfinished" aria-labelledby="unfinished">
      <h2 id="unfinished">Not finished</h2>
      <p>Still open. The clocks have kept running.</p>
      <ul className="bare">
        {draws.map((draw) => (
          <li key={draw.drawId}>
            <DrawName draw={draw} />
            <button
              type="button"
              className="button go"
              aria-label={`Go on with the draw of ${draw.patientName}`}
              onClick={() => void actions.go({ name: 'draw', drawId: draw.drawId })}
            >
              Go on
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Closed draws, newest first. */
export function EarlierDraws({ draws }: { readonly draws: readonly Draw[] }) {
  const actions = useActions()
  return (
    <section className="earlier" aria-labelledby="earlier">
      <h2 id="earlier">Earlier draws</h2>
      {draws.length === 0 ? (
        <p className="soft">None on this device yet.</p>
      ) : (
        <ul className="bare">
          {draws.map((draw) => (
            <li key={draw.drawId}>
              <DrawName draw={draw} />
              <button
                type="button"
                className="button"
                aria-label={`Open the record of ${draw.patientName}, ${opened.format(draw.opened_ms)}`}
                onClick={() => void actions.go({ name: 'chart', drawId: draw.drawId })}
              >
                Open the record
              </button>
            </li>
          ))}
        </ul>
      )}
      <label className="bringIn">
        Bring in a saved log
        <input
          type="file"
          className="input"
          accept=".json,application/json"
          onChange={(event) => {
            const file = event.target.files?.[0]
            if (file) void file.text().then((text) => actions.importLog(text))
          }}
        />
      </label>
    </section>
  )
}
