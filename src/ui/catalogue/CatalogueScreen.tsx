import { useState } from 'react'
import type { EditedTables } from '../../app/site/catalogue/editRows.ts'
import { catalogueJson, testsCsv, tubesCsv } from '../../app/site/catalogue/writeCatalogue.ts'
import { ok } from '../../core/basics/result.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import { TestsTable, TubesTable } from './CatalogueTables.tsx'
import { LaboratoriesSection } from './LaboratoriesSection.tsx'
import { OwnCatalogue } from './OwnCatalogue.tsx'
import { PolicySection } from './PolicySection.tsx'
import { PreviewPanel, type FilePreview } from './PreviewPanel.tsx'
import { StockSection } from './StockSection.tsx'
import { useRowEditing } from './useRowEditing.tsx'
import './catalogue.css'

/** The site's tests, tubes and limits: look at them, take them out, bring changed ones in after seeing what changes. */
export function CatalogueScreen() {
  const { site, page, intake } = useServices()
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { catalogue } = site
  const [edited, setEdited] = useState<Catalogue>()
  const shown = edited ?? catalogue
  const { tests, tubes } = shown
  const stock = useApp((s) => s.stock) ?? []
  const [preview, setPreview] = useState<FilePreview>()
  const tables = { catalogue: shown, stock }
  const takeRow = (next: EditedTables): void => setEdited(next.catalogue)
  const editTests = useRowEditing('tests', tables, takeRow)
  const editTubes = useRowEditing('tubes', tables, takeRow)
  const choose = async (file: File): Promise<void> =>
    setPreview({ file: file.name, ...(await intake.catalogue(file)) })
  const save = (name: string, type: string, text: string) => (): void =>
    page.saveText({ name, type, text })
  return (
    <Frame title={t.title} back={useToStart()}>
      <div className="catalogue">
        <p>
          {fill(t.about, {
            tests: tests.length,
            tubes: tubes.length,
            version: catalogue.version,
          })}
        </p>
        <OwnCatalogue />
        {edited && (
          <>
            <PreviewPanel
              preview={{ file: t.edit.yourChanges, reading: ok(edited), more: 0 }}
              current={catalogue}
              onAccept={(next) => void actions.keepCatalogue(catalogueJson(next))}
              onDiscard={() => setEdited(undefined)}
            />
            <p className="soft">{t.edit.yourChangesAbout}</p>
          </>
        )}
        <TestsTable tests={tests} editing={editTests} />
        <TubesTable tubes={tubes} editing={editTubes} />
        <section aria-labelledby="catalogue-import">
          <h2 id="catalogue-import">{t.bringIn}</h2>
          <p id="catalogue-import-hint" className="soft">
            {t.bringInAbout}
          </p>
          <FileButton
            id="catalogue-file"
            label={t.file}
            accept=".csv,.json,text/csv,application/json"
            describedBy="catalogue-import-hint"
            onFile={(file) => void choose(file)}
          />
          {preview && (
            <PreviewPanel
              preview={preview}
              current={catalogue}
              onAccept={(next) => void actions.keepCatalogue(catalogueJson(next))}
              onDiscard={() => setPreview(undefined)}
            />
          )}
        </section>
        <section aria-labelledby="catalogue-export">
          <h2 id="catalogue-export">{t.takeOut}</h2>
          <p>
            {fill(t.loinc, {
              n: tests.filter(({ loinc }) => loinc !== undefined).length,
              tests: tests.length,
            })}
          </p>
          <div className="rowOfButtons">
            <button
              type="button"
              className="button"
              onClick={save('tests.csv', 'text/csv', testsCsv(tests))}
            >
              {t.saveTests}
            </button>
            <button
              type="button"
              className="button"
              onClick={save('tubes.csv', 'text/csv', tubesCsv(tubes))}
            >
              {t.saveTubes}
            </button>
            <button
              type="button"
              className="button"
              onClick={save('catalog.json', 'application/json', catalogueJson(catalogue))}
            >
              {t.saveBoth}
            </button>
          </div>
        </section>
      </div>
      <StockSection />
      <LaboratoriesSection />
      <PolicySection />
    </Frame>
  )
}
