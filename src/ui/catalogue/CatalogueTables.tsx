import type { TestRow, TubeRow } from '../../core/catalogue/catalogue.ts'
import { writeSpecimen } from '../../app/catalogue/specimenWords.ts'
import { ADDITIVE_WORDS } from '../shared/words.ts'

/** The site's tubes in its own order. */
export function TubesTable({ tubes }: { readonly tubes: readonly TubeRow[] }) {
  return (
    <div className="catalogue-table" role="region" aria-label="Tubes" tabIndex={0}>
      <table>
        <caption>Tubes</caption>
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Additive</th>
            <th scope="col">Draw</th>
            <th scope="col">Least fill</th>
            <th scope="col">Inversions</th>
            <th scope="col">Clots</th>
            <th scope="col">Closure</th>
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
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
        </tbody>
      </table>
    </div>
  )
}

/** The site's tests in its own order. */
export function TestsTable({ tests }: { readonly tests: readonly TestRow[] }) {
  return (
    <div className="catalogue-table" role="region" aria-label="Tests" tabIndex={0}>
      <table>
        <caption>Tests</caption>
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Code</th>
            <th scope="col">Specimen</th>
            <th scope="col">Least to preferred</th>
            <th scope="col">Sharing</th>
            <th scope="col">Handling</th>
            <th scope="col">Time limit</th>
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
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
        </tbody>
      </table>
    </div>
  )
}

const range = (low: number, high: number): string => (low === high ? `${low}` : `${low} to ${high}`)
