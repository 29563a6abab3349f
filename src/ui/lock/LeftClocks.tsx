import type { ClockView } from '../../app/view/drawViewTypes.ts'
import { BigClock, SmallClocks } from '../draw/BigClock.tsx'

/** The clocks of a draw by themselves: the most pressing one large. */
export function LeftClocks({ clocks }: { readonly clocks: readonly ClockView[] }) {
  const [first, ...others] = clocks
  return (
    <>
      {first && <BigClock clock={first} />}
      <SmallClocks clocks={others} />
    </>
  )
}
