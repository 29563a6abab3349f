import type { SittingPart } from '../../core/order/sitting.ts'
import { useTexts } from '../shared/useTexts.ts'

interface SittingHeadProps {
  readonly parts: readonly SittingPart[]
  /** Which of the draws of the order, from 1. */
  readonly number: number
  readonly of: number
  readonly level: 2 | 3
}

/** What tells one draw of an order from another at a glance: its number, then what its samples stand for. */
export function SittingHead({ parts, number, of, level }: SittingHeadProps) {
  const { texts, fill } = useTexts()
  const points = [...new Set(parts.map(({ point }) => point))].join('; ')
  const Heading = level === 2 ? 'h2' : 'h3'
  const names = [...new Set(parts.map(({ name }) => name))].join('; ')
  return (
    <Heading className="sittingHead">
      <span className="drawNumber figures">{fill(texts.series.drawOf, { number, of })}</span>{' '}
      <span>{points}</span> <span className="soft">{names}</span>
    </Heading>
  )
}
