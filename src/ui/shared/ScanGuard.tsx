import { useApp } from './appContext.tsx'
import { useKeyReader } from './useKeyReader.ts'

/** Outside a draw a scan means nothing, so the Enter behind it must press no button that happens to have the focus. */
export function ScanGuard() {
  const screen = useApp((s) => s.screen)
  return screen.name === 'draw' ? null : <Guard />
}

function Guard() {
  useKeyReader((act) => act.kind !== 'choose')
  return null
}
