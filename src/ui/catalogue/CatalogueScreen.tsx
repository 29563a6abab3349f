import type { ChangeEvent } from 'react'
import type { CataloguePreview, CatalogueFile } from '../../app/site/catalogue/previewCatalogue.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import { PreviewPanel } from './PreviewPanel.tsx'
import { TestsTable, TubesTable } from './CatalogueTables.tsx'
import './catalogue.css'

export type CatalogueExport = 'testsCsv' | 'tubesCsv' | 'json'

export interface CatalogueScreenProps {
  readonly catalogue: Catalogue
  /** What the chosen file would change; absent until one is chosen. */
  readonly preview?: CataloguePreview | undefined
  readonly onPreview: (file: CatalogueFile) => void
  /** Takes the previewed catalogue over. Only offered when the preview has no faults. */
  readonly onAccept: () => void
  readonly onDiscard: () => void
  readonly onExport: (what: CatalogueExport) => void
  readonly onBack: () => void
}

/** The site's tests and tubes: look at them, take them out, bring changed ones in after seeing what changes. */
export function CatalogueScreen(props: CatalogueScreenProps) {
  const { catalogue, preview, onPreview, onExport } = props
  const choose = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const input = event.target
    const file = input.files?.[0]
    if (!file) return
    onPreview({ name: file.name, text: await file.text() })
    // So that the same file can be chosen again after it was corrected.
    input.value = ''
  }
  return (
    <main className="catalogue">
      <button type="button" className="button quiet" onClick={props.onBack}>
        Back
      </button>
      <h1>Catalog</h1>
      <p>
        {catalogue.tests.length} tests and {catalogue.tubes.length} tubes, version{' '}
        {catalogue.version}. Local policy and the tube maker&rsquo;s label come first.
      </p>

      <section aria-labelledby="catalogue-import">
        <h2 id="catalogue-import">Bring in changes</h2>
        <p id="catalogue-import-hint" className="soft">
          A CSV file of tests or of tubes, or a JSON file of both. Nothing changes until you accept.
        </p>
        <label htmlFor="catalogue-file">File to look at</label>
        <input
          id="catalogue-file"
          className="input"
          type="file"
          accept=".csv,.json,text/csv,application/json"
          aria-describedby="catalogue-import-hint"
          onChange={(event) => void choose(event)}
        />
        {preview && (
          <PreviewPanel preview={preview} onAccept={props.onAccept} onDiscard={props.onDiscard} />
        )}
      </section>

      <section aria-labelledby="catalogue-export">
        <h2 id="catalogue-export">Take out</h2>
        <div className="rowOfButtons">
          <button type="button" className="button" onClick={() => onExport('testsCsv')}>
            Save tests as CSV
          </button>
          <button type="button" className="button" onClick={() => onExport('tubesCsv')}>
            Save tubes as CSV
          </button>
          <button type="button" className="button" onClick={() => onExport('json')}>
            Save both as JSON
          </button>
        </div>
      </section>

      <TubesTable tubes={catalogue.tubes} />
      <TestsTable tests={catalogue.tests} />
    </main>
  )
}
