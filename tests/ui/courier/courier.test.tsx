// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { sentPacks } from '../../../src/core/courier/sentPacks.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { LABORATORIES, sampleSpecimens } from '../../support/samplePack.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { courier } = texts
const ALL = sampleSpecimens()
const numbers = ALL.map(({ number }) => number)
const SENT = sampleSpecimens('D7-20261125-0005', [
  [400, { type: 'courierTook', tubeIds: ['t1', 't2', 't3'], courier: 'Kim Carrier', pack: 'P1', laboratory: 'Example Laboratory', act: 'a1' }],
]) // prettier-ignore
const ACTS = [{ id: 'a1', act: { type: 'courierTook', pack: 'P1' } }]
const site = { ...shippedSite, laboratories: LABORATORIES }

/** Everything goes to one laboratory at one temperature but for lactate and bilirubin: three packs. */
function shown(specimens = ALL) {
  return renderApp(
    {
      screen: { name: 'courier' },
      courier: { specimens, sent: sentPacks(specimens, ACTS), unread: [] },
    },
    { site },
  )
}

/** Types as a scanner does: fast, with Enter behind it. */
function scan(text: string): void {
  for (const key of [...text, 'Enter']) {
    fireEvent.keyDown(document.body, { key, code: key })
    fireEvent.keyUp(document.body, { key, code: key })
  }
}

const pack = (name: string) => within(screen.getByRole('region', { name }))

describe('the screen of packs', () => {
  it('is reached from the first screen', async () => {
    const app = renderApp()
    await userEvent.click(screen.getByRole('button', { name: new RegExp(courier.title) }))
    expect(app.calls).toContainEqual(['go', { name: 'courier' }])
  })

  it('counts a scanned label once, says into which pack it goes, and refuses a foreign one', () => {
    shown()
    scan(numbers[0] ?? '')
    expect(screen.getByText(/counted: Example Laboratory, room temperature/)).toBeTruthy()
    scan(numbers[0] ?? '')
    expect(screen.getByText(/was counted before. It counts once./)).toBeTruthy()
    const room = pack('Example Laboratory, room temperature')
    expect(room.getByText('1 of 1 counted')).toBeTruthy()
    scan('X9261125000301')
    expect(screen.getByText(/X9261125000301.*It is not counted/)).toBeTruthy()
    expect(room.getByText('1 of 1 counted')).toBeTruthy()
  })

  it('is not complete while a tube is missing, and goes without it only by somebody’s word', async () => {
    const twoOf = [...ALL, ...sampleSpecimens('D7-20261125-0004')]
    const app = shown(twoOf)
    const room = pack('Example Laboratory, room temperature')
    await userEvent.click(room.getByRole('checkbox', { name: new RegExp(numbers[0] ?? '') }))
    expect(room.queryByRole('button', { name: courier.handOver.complete })).toBeNull()
    await userEvent.type(room.getByLabelText(courier.handOver.courier), 'Kim Carrier')
    await userEvent.click(room.getByRole('button', { name: courier.handOver.short }))
    expect(room.getByText(courier.handOver.saidByNeeded)).toBeTruthy()
    expect(app.calls.some(([name]) => name === 'courier.handOver')).toBe(false)
    await userEvent.type(room.getByLabelText(courier.handOver.saidBy), 'Robin Example')
    await userEvent.click(room.getByRole('button', { name: courier.handOver.short }))
    const [, handed] = app.calls.find(([name]) => name === 'courier.handOver') ?? []
    expect(handed).toMatchObject({
      specimens: [{ number: numbers[0] }],
      courier: 'Kim Carrier',
      missing: ['D7261125000401'],
      missingSaidBy: 'Robin Example',
    })
  })

  it('goes complete with a courier’s name, and says what is asked for without one', async () => {
    const app = shown()
    const room = pack('Example Laboratory, room temperature')
    await userEvent.click(room.getByRole('button', { name: courier.countAll }))
    await userEvent.click(room.getByRole('button', { name: courier.handOver.complete }))
    expect(room.getByText(courier.handOver.courierNeeded)).toBeTruthy()
    await userEvent.type(room.getByLabelText(courier.handOver.courier), 'Kim Carrier')
    await userEvent.click(room.getByRole('button', { name: courier.handOver.complete }))
    const [, handed] = app.calls.find(([name]) => name === 'courier.handOver') ?? []
    expect(handed).toMatchObject({ missing: [], missingSaidBy: '' })
  })

  it('hides names until they are asked for, and hands no practice over', async () => {
    shown([...ALL, ...sampleSpecimens('D7-20261125-0009', [], true)])
    expect(document.body.textContent).not.toContain('Alex Invented')
    await userEvent.click(screen.getByRole('checkbox', { name: courier.names }))
    expect(document.body.textContent).toContain('Alex Invented')
    expect(screen.getAllByText(courier.practice)).toHaveLength(3)
    expect(screen.getAllByText(courier.handOver.title)).toHaveLength(3)
  })

  it('keeps the manifest of what left, prints it, and takes what the laboratory says', async () => {
    const app = shown(SENT)
    const card = within(screen.getByRole('article', { name: 'P1' }))
    await userEvent.click(card.getByRole('button', { name: courier.manifest.print }))
    const paper = within(screen.getByRole('article', { name: courier.manifest.title }))
    expect(paper.getAllByRole('row')).toHaveLength(4)
    expect(paper.getByText('Kim Carrier')).toBeTruthy()
    await userEvent.click(card.getByRole('button', { name: courier.lab.received }))
    expect(app.calls).toContainEqual(['courier.received', SENT, ''])
    await userEvent.click(card.getByText(courier.lab.rejectTitle))
    await userEvent.selectOptions(card.getByLabelText(courier.lab.reason), 'RH')
    await userEvent.click(card.getByRole('button', { name: courier.lab.reject }))
    expect(app.calls).toContainEqual(['courier.rejected', [SENT[0]], 'RH', ''])
    await userEvent.click(card.getByRole('button', { name: courier.back }))
    expect(app.calls.some(([name]) => name === 'courier.takeBack')).toBe(false)
    await userEvent.click(card.getByRole('button', { name: courier.backYes }))
    expect(app.calls.some(([name]) => name === 'courier.takeBack')).toBe(true)
  })

  it('has no finding of axe', async () => {
    shown([...ALL, ...SENT])
    expect(await axeFindings()).toEqual([])
  })
})
