import type { HandOverState } from '../../core/handOver/handOverState.ts'
import { useApp } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Nothing leaves for a record server. */
const OFF: ReadonlySet<HandOverState> = new Set(['none', 'unread', 'off', 'otherServer'])

/** What becomes of what is recorded here: a device that shares or hands over must not say that all stays on it. */
export function StaysLine() {
  const isShared = useApp((s) => s.clinic !== undefined)
  const isHandedOver = useApp((s) => !OFF.has(s.handOver.state))
  const { home } = useTexts().texts
  const alone = isHandedOver ? home.staysHandOver : home.stays
  const shared = isHandedOver ? home.staysBoth : home.staysClinic
  return <p className="stays soft">{isShared ? shared : alone}</p>
}
