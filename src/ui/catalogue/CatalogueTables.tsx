import { useState } from 'react'
import type { Need, TestRow, TubeRow } from '../../core/catalogue/catalogue.ts'
import { useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { CatalogueRow } from './CatalogueRow.tsx'
import { RowEditingBox } from './RowEditingBox.tsx'
import type { RowEditing } from './useRowEditing.tsx'

/** The site's tubes in its own order. */
export function TubesTable({
  tubes,
  editing,
}: {
  readonly tubes: readonly TubeRow[]
  readonly editing: RowEditing
}) {
  const { catalogue: t } = useTexts().texts
  const { additives } = useServices().site.texts.catalogue
  const { mL, minutes, percent, range } = useUnits()
  const c = t.columns
  return (
    <section aria-labelledby="catalogue-tubes">
      <h2 id="catalogue-tubes">{t.tubes}</h2>
      <RowEditingBox table="tubes" editing={editing} />
      <ul className="bare catalogueRows" aria-labelledby="catalogue-tubes">
        {tubes.map((tube, index) => (
          <CatalogueRow
            key={tube.code}
            name={tube.name}
            short={mL(tube.nominal_mL)}
            onChange={() => editing.change(tube.code)}
            onAnother={() => editing.another(tube.code)}
            details={[
              [t.edit.row, index + 1],
              [c.code, tube.code],
              [c.additive, additives[tube.additive]],
              [c.draw, mL(tube.nominal_mL)],
              [c.leastFill, percent(tube.leastFill_pct)],
              [c.inversions, range(tube.inversionsMin, tube.inversionsMax)],
              [c.clots, tube.clot_min === undefined ? '' : minutes(tube.clot_min)],
              [c.closure, tube.closure],
              [c.source, tube.source],
            ]}
          />
        ))}
      </ul>
    </section>
  )
}

/** The site's tests in its own order, or those that were looked for, the best fit first. */
export function TestsTable({
  tests,
  editing,
}: {
  readonly tests: readonly TestRow[]
  readonly editing: RowEditing
}) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { site, searchTests } = useServices()
  const { minutes } = useUnits()
  const specimens = useSpecimens()
  const [typed, setTyped] = useState('')
  const c = t.columns
  const handling = (test: TestRow): string =>
    [
      ...test.handling.map((mark) => site.words.handling[mark] ?? mark),
      ...(test.fasting ? [t.fasting] : []),
      ...(test.timing === undefined ? [] : [test.timing]),
    ].join(', ')
  const byCode = new Map(tests.map((test) => [test.code, test]))
  const shown =
    typed.trim() === '' ? tests : searchTests(typed).flatMap(({ code }) => byCode.get(code) ?? [])
  return (
    <section aria-labelledby="catalogue-tests">
      <h2 id="catalogue-tests">{t.tests}</h2>
      <RowEditingBox table="tests" editing={editing} />
      <TextField label={t.find} type="search" value={typed} onChange={setTyped} />
      <p className="soft" aria-live="polite">
        {fill(t.found, { n: shown.length, tests: tests.length })}
      </p>
      <ul className="bare catalogueRows" aria-labelledby="catalogue-tests">
        {shown.map((test) => (
          <CatalogueRow
            key={test.code}
            name={test.name}
            short={test.code}
            onChange={() => editing.change(test.code)}
            onAnother={() => editing.another(test.code)}
            details={[
              [t.edit.row, tests.indexOf(test) + 1],
              [c.code, test.code],
              [c.aliases, test.aliases.join(', ')],
              [c.specimen, specimens(test.accepts)],
              [
                c.volumes,
                fill(t.volumeRange, { least: test.least_mL, preferred: test.preferred_mL }),
              ],
              [c.sharing, sharingWords(test.sharing, t.sharing)],
              [c.handling, handling(test)],
              [c.timeLimit, test.timeLimit_min === undefined ? '' : minutes(test.timeLimit_min)],
              [c.source, test.source],
            ]}
          />
        ))}
      </ul>
    </section>
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
