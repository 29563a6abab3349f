import type { EditColumn } from '../../app/site/catalogue/editRows.ts'
import { ADDITIVES } from '../../core/catalogue/additives.ts'
import { FILLS_BY, TUBE_KINDS } from '../../core/catalogue/catalogue.ts'
import { HANDLING } from '../../core/catalogue/handling.ts'
import { useServices } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface RowFieldProps {
  readonly id: string
  readonly column: EditColumn
  readonly value: string
  readonly error: string | undefined
  readonly onChange: (cell: string) => void
}

/** One cell of a row: chosen where there are few answers, typed as in a file otherwise. */
export function RowField(props: RowFieldProps) {
  const { column, value } = props
  const { texts, fill } = useTexts()
  const t = texts.catalogue.edit
  const hints: Readonly<Partial<Record<EditColumn, string>>> = t.hints
  const own = hints[column]
  const hint =
    own === undefined
      ? fill(t.inFile, { column })
      : fill(t.inFileWith, { column, hint: fill(own, { known: HANDLING.join(', ') }) })
  const choices = useChoices(column, value)
  const shared = { id: props.id, label: t.columns[column], hint, error: props.error, value }
  return choices ? (
    <SelectField
      {...shared}
      options={choices.map(([cell]) => cell)}
      nameOf={(cell) => choices.find(([each]) => each === cell)?.[1] ?? cell}
      onChange={props.onChange}
    />
  ) : (
    <TextField {...shared} onChange={props.onChange} />
  )
}

type Choices = readonly (readonly [cell: string, words: string])[]

/** What may stand in a column of few answers; a cell that is none of them stays, so that nothing changes unseen. */
function useChoices(column: EditColumn, value: string): Choices | undefined {
  const t = useTexts().texts.catalogue.edit
  const { site } = useServices()
  const { additives } = site.texts.catalogue
  const known = ((): Choices | undefined => {
    switch (column) {
      case 'additive':
        return ADDITIVES.map((each) => [each, additives[each]])
      case 'kind':
        return TUBE_KINDS.map((each) => [each, t.kinds[each]])
      case 'fillsBy':
        return FILLS_BY.map((each) => [each, t.fillsBy[each]])
      case 'transfusion':
      case 'fasting':
      case 'partialFill':
        return [
          ['', t.yesNo.no],
          ['yes', t.yesNo.yes],
        ]
      case 'capillary':
        return [
          ['', t.yesNo.yes],
          ['no', t.yesNo.no],
        ]
      case 'tubeCode':
        return site.catalogue.tubes.map(({ code, name }) => [code, name])
      default:
        return undefined
    }
  })()
  return known && !known.some(([cell]) => cell === value) ? [[value, value], ...known] : known
}
