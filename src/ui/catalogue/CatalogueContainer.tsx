import { useState } from 'react'
import {
  previewCatalogue,
  type CataloguePreview,
} from '../../app/site/catalogue/previewCatalogue.ts'
import { catalogueJson, testsCsv, tubesCsv } from '../../app/site/catalogue/writeCatalogue.ts'
import { policyJson, previewPolicy } from '../../app/site/sitePolicy.ts'
import { policyChanges } from '../../core/policy/policy.ts'
import type { SiteData } from '../../app/site/siteData.ts'
import { CatalogueScreen, type CatalogueExport } from './CatalogueScreen.tsx'
import { PolicySection } from './PolicySection.tsx'
import { useActions } from '../shared/appContext.tsx'
import { saveText } from '../shared/leaving.ts'

interface CataloguePlaceProps {
  readonly site: SiteData
  /** Keeps the accepted catalogue on this device and starts the app anew with it. */
  readonly onKeep: (json: string) => void
  /** The same for the limits. */
  readonly onKeepPolicy: (json: string) => void
}

/** The catalogue screen on the site's own catalogue. Nothing changes before a preview was accepted. */
export function CatalogueContainer({ site, onKeep, onKeepPolicy }: CataloguePlaceProps) {
  const [preview, setPreview] = useState<CataloguePreview>()
  const actions = useActions()
  const { catalogue } = site
  const exported = (what: CatalogueExport): void => {
    if (what === 'json')
      saveText({ name: 'catalog.json', type: 'application/json', text: catalogueJson(catalogue) })
    if (what === 'testsCsv')
      saveText({ name: 'tests.csv', type: 'text/csv', text: testsCsv(catalogue.tests) })
    if (what === 'tubesCsv')
      saveText({ name: 'tubes.csv', type: 'text/csv', text: tubesCsv(catalogue.tubes) })
  }
  return (
    <>
      <CatalogueScreen
        catalogue={catalogue}
        preview={preview}
        onPreview={(file) => setPreview(previewCatalogue(catalogue, file))}
        onAccept={() => preview?.next && onKeep(catalogueJson(preview.next))}
        onDiscard={() => setPreview(undefined)}
        onExport={exported}
        onBack={() => actions.go('home')}
      />
      <PolicySection
        policy={site.policy}
        changes={policyChanges(site.defaultPolicy, site.policy)}
        onPreview={(text) => previewPolicy(site.defaultPolicy, text)}
        onAccept={(next) => onKeepPolicy(policyJson(next))}
        onExport={() =>
          saveText({ name: 'limits.json', type: 'application/json', text: policyJson(site.policy) })
        }
      />
    </>
  )
}
