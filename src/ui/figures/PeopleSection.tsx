import { useId } from 'react'
import { isEnough } from '../../core/figures/enough.ts'
import type { Proportion } from '../../core/figures/pChart.ts'
import type { PersonFigures } from '../../core/figures/personFigures.ts'
import { FigureTable } from './FigureTable.tsx'
import { useFigureTexts } from './useFigureTexts.ts'

/** The figures by person, in words and without a picture: nobody is to be seen above another. */
export function PeopleSection({ people }: { readonly people: readonly PersonFigures[] }) {
  const { texts, fill, percent } = useFigureTexts()
  const { people: words } = texts
  const id = useId()
  const told = ({ count, of }: Proportion): string =>
    isEnough(of)
      ? fill(words.share, { share: percent(count / of), count, of })
      : fill(words.tooFew, { count, of })
  return (
    <section className="figureCard isWide" aria-labelledby={id}>
      <div className="figureWords">
        <h2 id={id}>{words.title}</h2>
        <p className="soft">{words.about}</p>
        {people.length === 0 && <p>{words.none}</p>}
      </div>
      {people.length > 0 && (
        <FigureTable
          name={words.table}
          columns={[words.person, words.draws, words.gaveBlood, words.bandOver]}
          rows={people.map(({ person, draws, gaveBlood, bandOver }) => [
            `${person.name} (${person.initials})`,
            String(draws),
            told(gaveBlood),
            told(bandOver),
          ])}
        />
      )}
    </section>
  )
}
