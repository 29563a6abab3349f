import './controls.css'

interface FilesButtonProps {
  readonly label: string
  /** A folder with everything in it is chosen, and not files. */
  readonly folder?: boolean
  readonly onFiles: (files: readonly File[]) => void
}

const ORDER_FILE = /\.(json|csv)$/i

/** Takes several files of orders, or those of a folder; other files of a folder are not looked at. */
export function FilesButton({ label, folder = false, onFiles }: FilesButtonProps) {
  const asFolder = folder ? { webkitdirectory: '' } : {}
  return (
    <label className="button fileButton">
      {label}
      <input
        className="visuallyHidden"
        type="file"
        multiple
        accept=".json,.csv,application/json,text/csv"
        {...asFolder}
        onChange={({ target }) => {
          const chosen = [...(target.files ?? [])]
          // A browser says nothing when the file in the field is chosen again.
          target.value = ''
          const files = folder ? chosen.filter(({ name }) => ORDER_FILE.test(name)) : chosen
          if (files.length > 0) onFiles(files)
        }}
      />
    </label>
  )
}
