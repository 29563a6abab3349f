import { useState } from 'react'
import { ok } from '../../core/basics/result.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { PreviewPanel } from './PreviewPanel.tsx'

/** The way back to the shipped catalog, where a site has one of its own: seen first, and asked for twice. */
export function OwnCatalogue() {
  const { catalogue, shippedCatalogue } = useServices().site
  const actions = useActions()
  const t = useTexts().texts.catalogue.edit
  const [asked, setAsked] = useState(false)
  if (catalogue === shippedCatalogue) return null
  return asked ? (
    <PreviewPanel
      preview={{ file: t.undoPreview, reading: ok(shippedCatalogue), more: 0 }}
      current={catalogue}
      onAccept={() => void actions.forgetCatalogue()}
      onDiscard={() => setAsked(false)}
    />
  ) : (
    <div className="rowOfButtons">
      <p>{t.ownInUse}</p>
      <button type="button" className="button" onClick={() => setAsked(true)}>
        {t.undo}
      </button>
    </div>
  )
}
