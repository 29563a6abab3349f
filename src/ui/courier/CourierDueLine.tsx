import { nextPickUp } from '../../core/courier/nextPickUp.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { here, offsetHere } from '../shared/here.ts'
import { useCourierTexts } from './useCourierTexts.ts'

/** How many specimens of patients wait for the bag or for the courier. */
export const useForCourier = (): number =>
  useApp((s) => s.bench.rows).filter(({ step }) => step === 'bag' || step === 'courier').length

/** How many specimens wait for the courier and when one comes, for the first screen. It names nobody. */
export function CourierDueLine({ n }: { readonly n: number }) {
  const now_ms = useApp((s) => s.bench.now_ms)
  const { laboratories } = useServices().site
  const actions = useActions()
  const { texts, fill } = useCourierTexts()
  const { due } = texts
  const next = nextPickUp(laboratories, now_ms, offsetHere)
  return (
    <button type="button" className="button" onClick={() => void actions.go({ name: 'courier' })}>
      <strong>{due.title}</strong> {fill(due.n, { n })}{' '}
      {next
        ? fill(due.next, {
            at: timeOfDay(here(next.at_ms)),
            min: Math.round((next.at_ms - now_ms) / 60_000),
            laboratories: next.laboratories.join(', '),
          })
        : due.none}
    </button>
  )
}
