import { code128 } from '../../app/record/code128.ts'
import type { LabelModel } from '../../core/record/labels.ts'
import { useTexts } from '../shared/useTexts.ts'
import { Barcode } from './Barcode.tsx'

/**
 * One label in the 2 x 1 inch layout: name at the top left, as CLSI AUTO12-A puts it; the rest of the arrangement is
 * ours, for the standard's inner pages are not free to read.
 */
export function TubeLabel({ label }: { readonly label: LabelModel }) {
  const { texts, fill } = useTexts()
  const { labels } = texts
  const { position, of } = label
  return (
    <article
      className="tubeLabel"
      aria-label={fill(labels.label, { number: label.specimenNumber })}
    >
      <header className="name">
        {label.nameLines.map((line, index) => (
          <span key={index}>
            {line}
            {label.nameShortened && index === label.nameLines.length - 1 ? ' *' : ''}
          </span>
        ))}
      </header>
      <p className="row">
        <span>{fill(labels.born, { date: label.birthDate })}</span>
        <span>
          {label.collected} {label.initials}
        </span>
      </p>
      <p className="row">
        <span className="record">{fill(labels.record, { number: label.recordNumber })}</span>
        <span className="tube">{label.tubeName}</span>
      </p>
      <Barcode
        barcode={code128(label.specimenNumber)}
        name={fill(labels.bars, { number: label.specimenNumber })}
      />
      <p className="row foot">
        <span>{label.specimenNumber}</span>
        {label.short && <span>{labels.short}</span>}
        {label.invented && <strong>{labels.practice}</strong>}
        <span>{fill(labels.position, { position, of })}</span>
      </p>
    </article>
  )
}
