// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, expect, it, vi } from 'vitest'
import { previewPolicy } from '../../../src/app/site/sitePolicy.ts'
import { PolicySection } from '../../../src/ui/catalogue/PolicySection.tsx'
import { samplePolicy as shipped } from '../../support/samplePlan.ts'

afterEach(cleanup)

const show = () => {
  const onAccept = vi.fn()
  render(
    <PolicySection
      policy={shipped}
      changes={[{ key: 'bandRest_s', from: 120, to: 180 }]}
      onPreview={(text) => previewPolicy(shipped, text)}
      onAccept={onAccept}
      onExport={() => undefined}
    />,
  )
  return onAccept
}
const file = (text: string) => new File([text], 'limits.json', { type: 'application/json' })
const choose = (text: string) =>
  userEvent.upload(screen.getByLabelText('JSON file of limits to look at'), file(text))

it('shows every limit with its source, and what the site has changed', () => {
  show()
  expect(screen.getByRole('rowheader', { name: 'bandLimit_s' })).toBeTruthy()
  expect(screen.getByText(/bandRest_s from 120 to 180/)).toBeTruthy()
})

it('takes limits over only after they were looked at', async () => {
  const onAccept = show()
  await choose('{"limits":{"drying_s":45}}')
  expect(onAccept).not.toHaveBeenCalled()
  expect(await screen.findByText(/shipped 30, yours 45/)).toBeTruthy()
  await userEvent.click(screen.getByRole('button', { name: 'Use these limits' }))
  expect(onAccept).toHaveBeenCalledOnce()
})

it('names what is wrong and offers nothing to accept', async () => {
  show()
  await choose('{"limits":{"drying_s":-1}}')
  expect(await screen.findByText(/Nothing was changed/)).toBeTruthy()
  expect(screen.queryByRole('button', { name: 'Use these limits' })).toBeNull()
})
