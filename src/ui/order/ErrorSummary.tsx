import { useEffect, useRef } from 'react'
import type { DraftError } from '../../app/order/orderDraft.ts'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId } from './useDraft.ts'

/** Everything to put right, in one place, each line leading to its field. */
export function ErrorSummary({ errors }: { readonly errors: readonly DraftError[] }) {
  const { order } = useTexts().texts
  const box = useRef<HTMLDivElement>(null)
  const first = errors.length > 0
  useEffect(() => {
    if (first) box.current?.focus()
  }, [first, errors])
  if (!first) return null
  return (
    <div className="stopBox" role="alert" tabIndex={-1} ref={box}>
      <h2>{order.cannotPlan}</h2>
      <ul>
        {errors.map((error, i) => (
          <li key={i}>
            <a
              href={`#${fieldId(error.field)}`}
              onClick={(event) => {
                event.preventDefault()
                document.getElementById(fieldId(error.field))?.focus()
              }}
            >
              {error.text}
            </a>
          </li>
        ))}
      </ul>
    </div>
  )
}
