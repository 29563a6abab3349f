import { code128 } from '../../app/record/code128.ts'
import type { LabelModel } from '../../core/record/labels.ts'
import type { LabelStock, LaidLabel } from '../../core/record/layLabel.ts'
import { useTexts } from '../shared/useTexts.ts'
import { Barcode } from './Barcode.tsx'

/** The number is in the bars above as well. */
const FOOT_pt = 7.5

/** Sizes are classes: the page's policy allows no style of its own on an element. */
const typeSize = (size_pt: number): string => `type${size_pt * 10}`

interface TubeLabelProps {
  readonly label: LabelModel
  readonly laid: LaidLabel
  readonly stock: LabelStock
}

/**
 * One label: name at the top left, as CLSI AUTO12-A puts it, family name first; the rest of the arrangement is ours,
 * for the standard's inner pages are not free to read.
 */
export function TubeLabel({ label, laid, stock }: TubeLabelProps) {
  const { texts, fill } = useTexts()
  const { labels } = texts
  const { position, of } = label
  return (
    <article
      className={`tubeLabel ${stock}`}
      aria-label={fill(labels.label, { number: label.specimenNumber })}
    >
      <header className={`name ${typeSize(laid.nameSize_pt)}`}>
        {laid.lines.map((line, index) => (
          <span key={index}>
            {line}
            {laid.shortened && index === laid.lines.length - 1 ? ' *' : ''}
          </span>
        ))}
      </header>
      {laid.rows.map((row) => (
        <p key={row.id} className={`row ${row.bold ? 'bold' : ''} ${typeSize(row.size_pt)}`}>
          <span>{row.left}</span>
          {row.right && <span className="right">{row.right}</span>}
        </p>
      ))}
      <Barcode
        barcode={code128(label.specimenNumber)}
        name={fill(labels.bars, { number: label.specimenNumber })}
      />
      <p className={`row foot ${typeSize(Math.min(laid.size_pt, FOOT_pt))}`}>
        <span>{label.specimenNumber}</span>
        {label.short && <span>{labels.short}</span>}
        {label.invented && <strong>{labels.practice}</strong>}
        <span>{fill(labels.position, { position, of })}</span>
      </p>
    </article>
  )
}
