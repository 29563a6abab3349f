import type { InputHTMLAttributes } from 'react'

type FileInputProps = Omit<InputHTMLAttributes<HTMLInputElement>, 'type' | 'onChange' | 'value'> & {
  readonly onFile: (file: File) => void
}

/** Takes one file, and takes the same one again: a file that was refused is corrected and chosen once more. */
export function FileInput({ onFile, ...rest }: FileInputProps) {
  return (
    <input
      {...rest}
      type="file"
      onChange={({ target }) => {
        const file = target.files?.[0]
        // A browser says nothing when the file in the field is chosen again.
        target.value = ''
        if (file) onFile(file)
      }}
    />
  )
}
