import type { ReactNode } from 'react'
import { useApp } from '../shared/appContext.tsx'
import { LockScreen } from './LockScreen.tsx'
import { RecoveryKeyScreen } from './RecoveryKeyScreen.tsx'

/** What stands before every other screen: the lock, and a recovery key that is shown once. */
export function LockGate({ children }: { readonly children: ReactNode }) {
  const isLocked = useApp((s) => s.lock.state === 'locked')
  const recoveryKey = useApp((s) => s.lock.recoveryKey)
  if (isLocked) return <LockScreen />
  if (recoveryKey !== undefined) return <RecoveryKeyScreen recoveryKey={recoveryKey} />
  return children
}
