import type { RowState } from '../../core/handOver/handOverRow.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { SaidByServer } from './SaidByServer.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** Whether anything leaves, to where, what keeps it back, and the switches for it. */
export function StatePart() {
  const {
    state,
    server = '',
    before = '',
    faults,
    trouble,
    next_ms,
    login,
    rows,
  } = useApp((s) => s.handOver)
  const { texts, fill } = useHandOverTexts()
  const count = (each: RowState): number => rows.filter((row) => row.state === each).length
  const refused_n = count('refused')
  // What was refused is no good news, although nothing keeps the rest back.
  const shown = state === 'idle' && refused_n > 0 ? 'refused' : state
  const values = { server, before, faults: faults.join(', ') }
  return (
    <section aria-labelledby="hand-over-state">
      <h2 id="hand-over-state">{texts.server}</h2>
      <div role="status" className={trouble ? 'warnBox' : 'handOverState'} data-state={shown}>
        <p>
          <strong>{fill(texts.states[state], values)}</strong>
        </p>
        {state !== 'none' && state !== 'unread' && (
          <p className="figures">
            {fill(texts.count, { n: count('handedOver') })}
            {refused_n > 0 && ` ${fill(texts.refusedCount, { n: refused_n })}`}
          </p>
        )}
        {trouble && <SaidByServer trouble={trouble} />}
        {trouble && next_ms !== undefined && (
          <p>{fill(texts.nextTry, { time: timeOfDay(here(next_ms)) })}</p>
        )}
      </div>
      {server !== '' && <p className="soft">{texts.login[login]}</p>}
      <Switches />
    </section>
  )
}

function Switches() {
  const { state, login } = useApp((s) => s.handOver)
  const { handOver } = useActions()
  const { page } = useServices()
  const { texts } = useHandOverTexts()
  if (state === 'none' || state === 'unread') return null
  const isOff = state === 'off' || state === 'otherServer'
  const saveKey = async (): Promise<void> => {
    const file = await handOver.keyFile()
    if (file) page.saveText(file)
  }
  return (
    <div className="rowOfButtons">
      {isOff ? (
        <button type="button" className="button go" onClick={() => void handOver.switchOn()}>
          {texts.switchOn}
        </button>
      ) : (
        <>
          <button
            type="button"
            className="button"
            onClick={() => void handOver.pause(state !== 'paused')}
          >
            {state === 'paused' ? texts.goOn : texts.pause}
          </button>
          {state === 'waiting' && (
            <button type="button" className="button" onClick={() => handOver.sendNow()}>
              {texts.sendNow}
            </button>
          )}
          <button type="button" className="button quiet" onClick={() => void handOver.switchOff()}>
            {texts.switchOff}
          </button>
        </>
      )}
      {(login === 'backend' || login === 'both') && (
        <button type="button" className="button quiet" onClick={() => void saveKey()}>
          {texts.keyFile}
        </button>
      )}
    </div>
  )
}
