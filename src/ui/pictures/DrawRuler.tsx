import type { RulerView } from '../../app/view/drawViewTypes.ts'
import { useServices } from '../shared/appContext.tsx'
import { closureColor } from '../shared/closureColor.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useWidth } from './useWidth.ts'
import './drawRuler.css'

/** Room for one mark with its word, px. */
const MARK_px = 92

/**
 * The draw as a ruler that gathers a mark for everything that happens. Each mark has as much room as the next and keeps
 * its place; where the room ends the oldest make way and are counted.
 */
export function DrawRuler({ ruler }: { readonly ruler: RulerView }) {
  const { fill } = useTexts()
  const words = useServices().site.texts.pictures.ruler
  const [line, width] = useWidth<HTMLOListElement>(1140)
  const room = Math.max(2, Math.floor(width / MARK_px) - 1)
  const hidden = Math.max(0, ruler.marks.length - room)
  return (
    <ol className="bare drawRuler" aria-label={words.about} ref={line}>
      {hidden > 0 && <li className="before">{fill(words.before, { n: hidden })}</li>}
      {ruler.marks.slice(hidden).map(({ seq, look, text, closure, isOpen }) => (
        <li key={seq} className={`${look} ${isOpen ? 'isOpen' : ''}`}>
          <svg viewBox="0 0 16 16" aria-hidden="true">
            <Sign look={look} closure={closure} />
          </svg>
          <span className="what">{text}</span>
        </li>
      ))}
    </ol>
  )
}

interface SignProps {
  readonly look: RulerView['marks'][number]['look']
  readonly closure: string | undefined
}

function Sign({ look, closure }: SignProps) {
  const color = closureColor(closure ?? '')
  switch (look) {
    case 'band':
      return <rect x="1" y="4" width="14" height="8" />
    case 'over':
      return (
        <>
          <rect x="1" y="4" width="14" height="8" />
          <path d="M3 12l4-8M7 12l4-8M11 12l4-8" />
        </>
      )
    case 'needle':
      return <path d="M1 15L13 3M10 3h3v3" />
    case 'tube':
      return (
        <>
          <path d="M5 6h6v6a3 3 0 0 1-6 0z" />
          <rect x="4" y="1" width="8" height="5" className="cap" {...(color && { fill: color })} />
        </>
      )
    case 'trouble':
      return <path d="M8 2l7 12H1z" className="solid" />
    case 'plain':
      return <circle cx="8" cy="8" r="5" />
  }
}
