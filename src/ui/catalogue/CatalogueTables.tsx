import type { Need, TestRow, TubeRow } from '../../core/catalogue/catalogue.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { WideTable } from './WideTable.tsx'

/** The site's tubes in its own order. */
export function TubesTable({ tubes }: { readonly tubes: readonly TubeRow[] }) {
  const { catalogue: t } = useTexts().texts
  const { additives } = useServices().site.texts.catalogue
  const { mL, minutes, percent, range } = useUnits()
  const c = t.columns
  return (
    <WideTable
      name={t.tubes}
      columns={[
        ...[c.name, c.additive, c.draw, c.leastFill, c.inversions, c.clots, c.closure, c.source],
      ]}
    >
      {tubes.map((tube) => (
        <tr key={tube.code}>
          <th scope="row">{tube.name}</th>
          <td>{additives[tube.additive]}</td>
          <td>{mL(tube.nominal_mL)}</td>
          <td>{percent(tube.leastFill_pct)}</td>
          <td>{range(tube.inversionsMin, tube.inversionsMax)}</td>
          <td>{tube.clot_min !== undefined && minutes(tube.clot_min)}</td>
          <td>{tube.closure}</td>
          <td>{tube.source}</td>
        </tr>
      ))}
    </WideTable>
  )
}

/** The site's tests in its own order. */
export function TestsTable({ tests }: { readonly tests: readonly TestRow[] }) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { words } = useServices().site
  const { minutes } = useUnits()
  const specimens = useSpecimens()
  const c = t.columns
  const handling = (test: TestRow): string =>
    [
      ...test.handling.map((mark) => words.handling[mark] ?? mark),
      ...(test.fasting ? [t.fasting] : []),
      ...(test.timing === undefined ? [] : [test.timing]),
    ].join(', ')
  return (
    <WideTable
      name={t.tests}
      columns={[
        ...[c.name, c.code, c.specimen, c.volumes, c.sharing, c.handling, c.timeLimit, c.source],
      ]}
    >
      {tests.map((test) => (
        <tr key={test.code}>
          <th scope="row">{test.name}</th>
          <td>{test.code}</td>
          <td>{specimens(test.accepts)}</td>
          <td>{fill(t.volumeRange, { least: test.least_mL, preferred: test.preferred_mL })}</td>
          <td>{sharingWords(test.sharing, t.sharing)}</td>
          <td>{handling(test)}</td>
          <td>{test.timeLimit_min !== undefined && minutes(test.timeLimit_min)}</td>
          <td>{test.source}</td>
        </tr>
      ))}
    </WideTable>
  )
}

/** Any other word is the name that the site gave a group of tests. */
function sharingWords(
  sharing: string,
  words: { readonly open: string; readonly alone: string },
): string {
  return sharing === 'open' || sharing === 'alone' ? words[sharing] : sharing
}

/** What a test can be run on: `serum or plasma from lithium heparin`. */
function useSpecimens(): (accepts: readonly Need[]) => string {
  const { texts, fill } = useTexts()
  const { additives } = useServices().site.texts.catalogue
  const { kinds, from, or } = texts.catalogue.specimens
  const list = new Intl.ListFormat(texts.language, { type: 'disjunction' })
  return (accepts) => {
    const ways = [...new Set(accepts.map(({ kind }) => kind))].map((kind) => {
      const named = accepts.filter((need) => need.kind === kind).map((n) => additives[n.additive])
      return fill(from, { kind: kinds[kind], additives: list.format(named) })
    })
    return ways.join(or)
  }
}
