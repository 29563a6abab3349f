/** Puts text on the clipboard; false where the browser does not allow it. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text)
    return true
  } catch {
    return false
  }
}

/** Offers a text as a file to keep. */
export function saveText(file: {
  readonly name: string
  readonly type: string
  readonly text: string
}): void {
  const address = URL.createObjectURL(new Blob([file.text], { type: file.type }))
  const link = document.createElement('a')
  link.href = address
  link.download = file.name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
