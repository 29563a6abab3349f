import { useActions, useApp, useServices } from './appContext.tsx'
import { useTexts } from './useTexts.ts'

/** Says that something recorded is not stored yet, for as long as that lasts, with a file as the way out. */
export function SavingLine() {
  const unsaved = useApp((s) => s.unsaved)
  const actions = useActions()
  const { page } = useServices()
  const { app } = useTexts().texts
  if (!unsaved) return null
  const save = async (): Promise<void> => {
    for (const drawId of unsaved.drawIds) {
      // Without a key the log cannot be signed; the note is better than nothing.
      const file =
        (await actions.exportRecord(drawId, 'log')) ?? (await actions.exportRecord(drawId, 'note'))
      if (file) page.saveText(file)
    }
  }
  return (
    <div className="troubleBox noPrint" role="alert">
      <p>
        <strong>{unsaved.text}</strong> <span className="why">{unsaved.why}</span>
      </p>
      {unsaved.drawIds.length > 0 && (
        <button type="button" className="button" onClick={() => void save()}>
          {app.saveAsFile}
        </button>
      )}
    </div>
  )
}
