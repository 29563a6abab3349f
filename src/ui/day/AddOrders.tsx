import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { FilesButton } from '../shared/FilesButton.tsx'
import { droppedFiles } from './droppedFiles.ts'

/** Orders from files, chosen or dropped; what was not taken stands here with its reason until it is read. */
export function AddOrders() {
  const actions = useActions()
  const notTaken = useApp((s) => s.day.notTaken)
  const isEmpty = useApp((s) => s.day.rows.length + s.day.done.length === 0)
  const { day } = useServices().site.texts
  return (
    <div
      className="addOrders"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        void droppedFiles(event.dataTransfer).then((files) => {
          if (files.length > 0) void actions.day.addFiles(files)
        })
      }}
    >
      <div className="rowOfButtons">
        <FilesButton label={day.addFiles} onFiles={(files) => void actions.day.addFiles(files)} />
        <FilesButton
          folder
          label={day.addFolder}
          onFiles={(files) => void actions.day.addFiles(files)}
        />
        <span className="soft">{day.dropHere}</span>
      </div>
      {isEmpty && (
        <div className="rowOfButtons">
          <button type="button" className="button" onClick={() => void actions.day.addDemoDay()}>
            {day.demoDay}
          </button>
          <span className="soft">{day.demoAbout}</span>
        </div>
      )}
      {notTaken.length > 0 && (
        <div className="warnBox" role="alert">
          <h3>{day.notTaken}</h3>
          <ul>
            {notTaken.map((text, i) => (
              <li key={i}>{text}</li>
            ))}
          </ul>
          <button type="button" className="button" onClick={() => actions.day.dismissNotTaken()}>
            {day.understood}
          </button>
        </div>
      )}
    </div>
  )
}
