import './controls.css'

interface FileButtonProps {
  readonly label: string
  readonly id?: string
  /** Endings and media types that are offered first. */
  readonly accept: string
  /** Where it is said what the file may be. */
  readonly describedBy?: string
  readonly onFile: (file: File) => void
}

/** Takes one file, and takes the same one again: a file that was refused is corrected and chosen once more. */
export function FileButton({ label, id, accept, describedBy, onFile }: FileButtonProps) {
  return (
    <label className="button fileButton">
      {label}
      <input
        id={id}
        className="visuallyHidden"
        type="file"
        accept={accept}
        aria-describedby={describedBy}
        onChange={({ target }) => {
          const file = target.files?.[0]
          // A browser says nothing when the file in the field is chosen again.
          target.value = ''
          if (file) onFile(file)
        }}
      />
    </label>
  )
}
