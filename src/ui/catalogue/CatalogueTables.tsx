import type { TestRow, TubeRow } from '../../core/catalogue/catalogue.ts'
import { writeSpecimen } from '../../app/site/catalogue/specimenWords.ts'
import { ADDITIVE_WORDS } from '../shared/words.ts'
import { WideTable } from './WideTable.tsx'

/** The site's tubes in its own order. */
export function TubesTable({ tubes }: { readonly tubes: readonly TubeRow[] }) {
  return (
    <WideTable
      name="Tubes"
      columns={[
        'Name',
        'Additive',
        'Draw',
        'Least fill',
        'Inversions',
        'Clots',
        'Closure',
        'Source',
      ]}
    >
      {tubes.map((tube) => (
        <tr key={tube.code}>
          <th scope="row">{tube.name}</th>
          <td>{ADDITIVE_WORDS[tube.additive]}</td>
          <td>{tube.nominal_mL} mL</td>
          <td>{tube.leastFill_pct} %</td>
          <td>{range(tube.inversionsMin, tube.inversionsMax)}</td>
          <td>{tube.clot_min === undefined ? '' : `${tube.clot_min} min`}</td>
          <td>{tube.closure}</td>
          <td>{tube.source}</td>
        </tr>
      ))}
    </WideTable>
  )
}

/** The site's tests in its own order. */
export function TestsTable({ tests }: { readonly tests: readonly TestRow[] }) {
  return (
    <WideTable
      name="Tests"
      columns={[
        'Name',
        'Code',
        'Specimen',
        'Least to preferred',
        'Sharing',
        'Handling',
        'Time limit',
        'Source',
      ]}
    >
      {tests.map((test) => (
        <tr key={test.code}>
          <th scope="row">{test.name}</th>
          <td>{test.code}</td>
          <td>{writeSpecimen(test.accepts).replaceAll('|', ' or ')}</td>
          <td>
            {test.least_mL} to {test.preferred_mL} mL
          </td>
          <td>{test.sharing}</td>
          <td>{[...test.handling, ...(test.fasting ? ['fasting'] : [])].join(', ')}</td>
          <td>{test.timeLimit_min === undefined ? '' : `${test.timeLimit_min} min`}</td>
          <td>{test.source}</td>
        </tr>
      ))}
    </WideTable>
  )
}

const range = (low: number, high: number): string => (low === high ? `${low}` : `${low} to ${high}`)
