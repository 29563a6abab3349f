import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { OrdersTold } from './OrdersTold.tsx'
import { SaidByServer } from './SaidByServer.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** Orders that come from the record server: how fetching them went, and what was not taken. */
export function OrdersPart() {
  const { state, orders } = useApp((s) => s.handOver)
  const { handOver } = useActions()
  const { texts, fill } = useHandOverTexts()
  const { may, isFetching, last_ms, listed_n, elsewhere_n, trouble } = orders
  const isOff = state === 'off' || state === 'otherServer' || state === 'paused'
  const time = last_ms === undefined ? '' : timeOfDay(here(last_ms))
  const fetched = trouble
    ? fill(texts.orders.failed, { time })
    : fill(texts.orders.last, { n: listed_n, time })
  const last = last_ms === undefined ? texts.orders.never : fetched
  return (
    <section aria-labelledby="hand-over-orders">
      <h2 id="hand-over-orders">{texts.parts.orders.title}</h2>
      <p className="soft">{texts.parts.orders.about}</p>
      {!may && <p>{texts.orders.none}</p>}
      <div role="status" className="handOverOrders">
        {may && <p>{isFetching ? texts.orders.fetching : last}</p>}
        {elsewhere_n > 0 && <p>{fill(texts.elsewhere.count, { n: elsewhere_n })}</p>}
        {trouble && (
          <div className="warnBox">
            <SaidByServer trouble={trouble} />
          </div>
        )}
        <OrdersTold />
      </div>
      {may && (
        <button
          type="button"
          className="button"
          disabled={isOff || isFetching}
          onClick={() => void handOver.fetchNow()}
        >
          {texts.orders.fetch}
        </button>
      )}
    </section>
  )
}
