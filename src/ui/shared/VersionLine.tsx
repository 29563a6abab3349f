import { useActions, useApp } from './appContext.tsx'
import { useDeviceTexts } from './useDeviceTexts.ts'

/**
 * A newer version of the app, told outside a draw. On the first screen it may be taken; on the others only a page that
 * still runs the old one beside a new one says so. While a draw runs here, or something is not saved, it waits.
 */
export function VersionLine() {
  const version = useApp((s) => s.version)
  const isHome = useApp((s) => s.screen.name === 'home')
  const runs = useApp((s) => s.draw !== undefined && !s.draw.closed && !s.draw.elsewhere)
  const isUnsaved = useApp((s) => s.unsaved !== undefined)
  const actions = useActions()
  const { version: texts } = useDeviceTexts()
  if (version === 'current' || (version === 'waiting' && !isHome)) return null
  const mustWait = runs || isUnsaved
  return (
    <div className="versionLine noPrint" role="status">
      <p>
        <strong>{texts[version].what}</strong> {mustWait ? texts.later : texts[version].advice}
      </p>
      {!mustWait && (
        <button type="button" className="button" onClick={() => void actions.takeVersion()}>
          {texts[version].take}
        </button>
      )}
    </div>
  )
}
