// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import { expect, it } from 'vitest'
import { SAMPLE_DRAW_ID, sampleLog } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { origin } = shippedSite.texts.log
const LINES = ['Signed by key 0123456789abcdef.', 'Whose key that is, is not known.']

function show(origins: ReadonlyMap<string, readonly string[]>) {
  const record = sampleLog({ opening: { invented: true } })
  return renderApp({
    screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
    records: new Map([[record.drawId, record]]),
    origins,
  })
}

it('stands on the record of a draw that was brought in: who signed it, what that proves and what not', async () => {
  show(new Map([[SAMPLE_DRAW_ID, LINES]]))
  const note = screen.getByText(origin.title).closest('details')
  if (!note) throw new Error('There is no note of where it came from.')
  expect(note.textContent).toContain(origin.about)
  const lines = within(note).getAllByRole('listitem', { hidden: true })
  expect(lines.map(({ textContent }) => textContent)).toEqual(LINES)
  expect(await axeFindings()).toEqual([])
})

it('does not stand on a record of this device, nor on one beside another that was brought in', () => {
  show(new Map([['D7-20261125-0404', LINES]]))
  expect(screen.queryByText(origin.title)).toBeNull()
})
