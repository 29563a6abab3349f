import { dayMonthYear } from '../../core/time/format.ts'
import { FileButton } from '../shared/FileButton.tsx'
import { useState } from 'react'
import type { Shortened } from '../../app/intake/firstFaults.ts'
import { stockCsv } from '../../app/site/catalogue/writeCatalogue.ts'
import type { TableFault } from '../../app/site/catalogue/readTable.ts'
import type { StockTube } from '../../core/catalogue/catalogue.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { TableFaults } from './PreviewPanel.tsx'
import { RowEditingBox } from './RowEditingBox.tsx'
import { useRowEditing } from './useRowEditing.tsx'
import { useStockName } from './useStockName.ts'
import { WideTable } from './WideTable.tsx'

type Preview = Shortened<readonly StockTube[], TableFault> & { readonly file: string }

/** The site's tubes on hand: brought in as a file, looked at first, counted down with every draw. */
export function StockSection() {
  const { page, intake } = useServices()
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { stock: t } = texts.catalogue
  const stock = useApp((s) => s.stock)
  const { catalogue } = useServices().site
  const [preview, setPreview] = useState<Preview>()
  const choose = async (file: File): Promise<void> =>
    setPreview({ file: file.name, ...(await intake.stock(file)) })
  const keep = (lots: readonly StockTube[] | undefined): void => {
    void actions.keepStock(lots)
    setPreview(undefined)
  }
  const editing = useRowEditing('stock', { catalogue, stock: stock ?? [] }, (next) =>
    keep(next.stock),
  )
  const save = (): void =>
    page.saveText({ name: 'stock.csv', type: 'text/csv', text: stockCsv(stock ?? []) })
  return (
    <section className="catalogue" aria-labelledby="stock-title">
      <h2 id="stock-title">{t.title}</h2>
      <p>{stock ? fill(t.counted, { n: stock.length }) : t.notCounted}</p>
      <p id="stock-hint" className="soft">
        {t.about}
      </p>
      <FileButton
        id="stock-file"
        label={t.file}
        accept=".csv,text/csv"
        describedBy="stock-hint"
        onFile={(file) => void choose(file)}
      />
      {preview && (
        <StockPreview preview={preview} onAccept={keep} onDiscard={() => setPreview(undefined)} />
      )}
      <RowEditingBox table="stock" editing={editing} />
      {stock && (
        <>
          <div className="rowOfButtons">
            <button type="button" className="button" onClick={save}>
              {t.save}
            </button>
            <button type="button" className="button" onClick={() => keep(undefined)}>
              {t.forget}
            </button>
          </div>
          <LotsTable name={t.lots} lots={stock} onChange={(lot) => editing.change(lot)} />
        </>
      )}
    </section>
  )
}

interface PreviewProps {
  readonly preview: Preview
  readonly onAccept: (lots: readonly StockTube[]) => void
  readonly onDiscard: () => void
}

function StockPreview({ preview: { file, reading, more }, onAccept, onDiscard }: PreviewProps) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  return (
    <section
      className={reading.ok ? 'warnBox' : 'stopBox'}
      aria-label={fill(t.previewOf, { file })}
    >
      <div role="status">
        <h3>{file}</h3>
        <p>
          {reading.ok
            ? fill(t.stock.wouldBe, { n: reading.value.length })
            : fill(t.faulty, { n: reading.faults.length + more })}
        </p>
      </div>
      {reading.ok ? (
        <LotsTable name={file} lots={reading.value} />
      ) : (
        <TableFaults faults={reading.faults} />
      )}
      <div className="rowOfButtons">
        {reading.ok && (
          <button type="button" className="button go" onClick={() => onAccept(reading.value)}>
            {t.stock.accept}
          </button>
        )}
        <button type="button" className="button" onClick={onDiscard}>
          {reading.ok ? t.leave : t.close}
        </button>
      </div>
    </section>
  )
}

interface LotsTableProps {
  readonly name: string
  readonly lots: readonly StockTube[]
  /** Left out where the lots are only looked at. */
  readonly onChange?: (lot: string) => void
}

function LotsTable({ name, lots, onChange }: LotsTableProps) {
  const nameOf = useStockName()
  const { catalogue: t } = useTexts().texts
  const { lot, expires, count } = t.stock.columns
  const columns = [t.columns.name, lot, expires, count]
  return (
    <WideTable name={name} columns={onChange ? [...columns, t.edit.row] : columns}>
      {lots.map((each) => (
        <tr key={`${each.tubeCode} ${each.lot}`}>
          <th scope="row">{nameOf(each.tubeCode)}</th>
          <td>{each.lot}</td>
          <td>{dayMonthYear(each.expires)}</td>
          <td>{each.count}</td>
          {onChange && (
            <td>
              <button
                type="button"
                className="button"
                onClick={() => onChange(`${each.tubeCode} ${each.lot}`)}
              >
                {t.edit.change}
                <span className="visuallyHidden"> {each.lot}</span>
              </button>
            </td>
          )}
        </tr>
      ))}
    </WideTable>
  )
}
