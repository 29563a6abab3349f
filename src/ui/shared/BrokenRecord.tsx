import type { CheckedLog } from '../../core/log/readStored.ts'
import { brokenText } from '../../app/site/storageTexts.ts'
import { useServices } from './appContext.tsx'

/** On top of everything made from a record whose chain is broken, on the screen and on paper. */
export function BrokenRecord({ record }: { readonly record: CheckedLog }) {
  const { texts } = useServices().site
  if (!record.fault) return null
  return (
    <p className="stopBox" role="alert">
      {brokenText(record.fault, texts.storage, texts.log)}
    </p>
  )
}
