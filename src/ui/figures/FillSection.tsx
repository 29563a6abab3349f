import { shownNumber } from '../../core/basics/shownNumber.ts'
import { useId } from 'react'
import type { FillFit } from '../../core/figures/fillFit.ts'
import { FillCorrections } from './FillCorrections.tsx'
import { FigureTable } from './FigureTable.tsx'
import { FillPicture } from './FillPicture.tsx'
import { useFigureTexts } from './useFigureTexts.ts'
import { useSetText } from './useSetText.ts'

/** How long tubes took to fill against what was predicted, by needle and set. */
export function FillSection({ fits }: { readonly fits: readonly FillFit[] }) {
  const { texts, fill, percent } = useFigureTexts()
  const setText = useSetText()
  const { fills } = texts
  const id = useId()
  const two = (n: number): string => shownNumber(n, 2)
  const range = ([low, high]: readonly [number, number]): string =>
    fill(texts.table.to, { low: two(low), high: two(high) })
  return (
    <section className="figureCard isWide" aria-labelledby={id}>
      <div className="figureWords">
        <h2 id={id}>{fills.title}</h2>
        <p className="soft">{fills.about}</p>
        {fits.length === 0 && <p>{fills.none}</p>}
      </div>
      {fits.length > 0 && (
        <>
          <FillPicture fits={fits} />
          <FigureTable
            name={fills.table}
            columns={[fills.set, fills.n, fills.ratio, fills.spread, fills.sure, fills.within]}
            rows={fits.map(({ set, n, ratio, quartiles, sure, within }) => [
              setText(set),
              String(n),
              two(ratio),
              range(quartiles),
              sure ? range(sure) : fills.tooFew,
              percent(within / n),
            ])}
          />
        </>
      )}
      <FillCorrections fits={fits} />
    </section>
  )
}
