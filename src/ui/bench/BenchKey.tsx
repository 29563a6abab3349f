import { useTexts } from '../shared/useTexts.ts'

/** A key of the bench as it stands on its button; a reader of screens has it from the button itself. */
export function BenchKey({ name }: { readonly name: string }) {
  const { keys } = useTexts().texts.draw
  const shown: Readonly<Record<string, string>> = keys
  return (
    <kbd className="benchKey" aria-hidden="true">
      {shown[name] ?? name}
    </kbd>
  )
}
