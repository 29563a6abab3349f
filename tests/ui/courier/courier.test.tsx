// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { NOTHING_COUNTED, withAll } from '../../../src/core/courier/count.ts'
import { packList } from '../../../src/core/courier/packList.ts'
import { dropOffs } from '../../../src/core/courier/dropOffs.ts'
import { sentPacks } from '../../../src/core/courier/sentPacks.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { SAMPLE_START_ms, wrongPersonAddendum } from '../../support/sampleLog.ts'
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
const DROPS = [
  {
    id: 'a2',
    act: { type: 'droppedOff' },
    specimens: [{ drawId: 'D7-20261125-0006', tubeIds: ['t1', 't3'] }],
  },
]
const DROPPED = sampleSpecimens('D7-20261125-0006', [
  [400, { type: 'droppedOff', tubeIds: ['t1', 't3'], to: 'Front desk', act: 'a2' }],
]) // prettier-ignore
const site = { ...shippedSite, laboratories: LABORATORIES }

/** Everything goes to one laboratory at one temperature but for lactate and bilirubin: three packs. */
function shown(specimens = ALL) {
  return renderApp(
    {
      screen: { name: 'courier' },
      courier: {
        specimens,
        sent: sentPacks(specimens, ACTS),
        dropped: dropOffs(specimens, DROPS),
        unread: [],
      },
    },
    { site, now_ms: () => SAMPLE_START_ms + 600_000 },
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

  it('says which pack is counted by voice, how, and what was said of it', () => {
    const groups = packList(ALL, LABORATORIES, shippedSite.catalogue)
    const [first] = groups
    if (!first) throw new Error('There are packs.')
    const app = shown()
    expect(screen.queryByText(/This pack is counted now/)).toBeNull()
    const listening = { state: { kind: 'listening' }, level: 0 } as const
    act(() => app.store.setState({ between: { listening } }))
    expect(screen.getAllByText(/This pack is counted now/)).toHaveLength(1)
    const said = { of: 'complete', pack: first, before: NOTHING_COUNTED } as const
    const counted = withAll(NOTHING_COUNTED, first)
    act(() => app.store.setState({ count: { counted, said } }))
    expect(screen.getByText(/1 specimen counted, as was said/)).toBeTruthy()
    act(() =>
      app.store.setState({ count: { counted: NOTHING_COUNTED, said: { ...said, of: 'short' } } }),
    )
    expect(screen.getByText(/not all are here. Scan or touch/)).toBeTruthy()
  })

  it('names apart what is of another person: held back here, and gone already', async () => {
    const of = sampleSpecimens('D7-20261125-0008', [
      [400, { type: 'courierTook', tubeIds: ['t1'], courier: 'Kim Carrier', pack: 'P1' }],
      [500, wrongPersonAddendum],
    ]) // prettier-ignore
    shown([...ALL, ...of])
    const [first, second, third] = of.map(({ number }) => number)
    expect(
      screen.getByText(new RegExp(`2 specimens are held back.*${second}, ${third}`)),
    ).toBeTruthy()
    expect(
      screen.getByText(new RegExp(`1 specimen has left.*${first}.*Tell the laboratory now`)),
    ).toBeTruthy()
    scan(second ?? '')
    expect(screen.getByText(/Take it out of the pack and keep it apart/)).toBeTruthy()
    expect(await axeFindings()).toEqual([])
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

  it('says of what is carried by when it must arrive, what would be too late, and leaves what is in the hand', async () => {
    const app = shown([...ALL, ...sampleSpecimens('D7-20261125-0009', [], true)])
    const mine = pack(courier.carried.title)
    // Lactate within 15 minutes is due before a blood count within a day; practice is not carried.
    const rows = mine.getAllByRole('row').slice(1)
    expect(rows.map((row) => row.textContent?.match(/D7\d+/)?.[0])).toEqual(
      [numbers[1], numbers[0], numbers[2]].map((number) => number ?? ''),
    )
    expect(rows[0]?.textContent).toContain('cold')
    expect(rows[2]?.textContent).toContain('kept dark')
    await userEvent.type(mine.getByLabelText(courier.carried.way), '2 h')
    expect(mine.getByText(courier.carried.wayWrong)).toBeTruthy()
    await userEvent.clear(mine.getByLabelText(courier.carried.way))
    await userEvent.type(mine.getByLabelText(courier.carried.way), '60')
    expect(rows[0]?.textContent).toMatch(
      /Out of time on arrival: lactate. Ask the laboratory before you go/,
    )
    expect(rows[1]?.textContent).not.toMatch(/Out of time/)
    expect(mine.getByText(/1 tube would be out of time/)).toBeTruthy()
    const leave = () => mine.getByRole('button', { name: /^Dropped off/ })
    await userEvent.click(leave())
    expect(mine.getByText(courier.carried.whereNeeded)).toBeTruthy()
    expect(mine.getByText(courier.handOver.none)).toBeTruthy()
    await userEvent.click(mine.getByRole('checkbox', { name: new RegExp(numbers[2] ?? '') }))
    await userEvent.type(mine.getByLabelText(courier.carried.where), 'Front desk')
    await userEvent.type(mine.getByLabelText(/^To whom/), 'Robin Example')
    await userEvent.click(leave())
    expect(app.calls.filter(([name]) => name === 'courier.dropOff')).toEqual([
      ['courier.dropOff', { specimens: [ALL[2]], where: 'Front desk', whom: 'Robin Example' }],
    ])
  })

  it('keeps the receipt of what was dropped off, without a full name, and takes it back', async () => {
    const app = shown(DROPPED)
    const card = within(screen.getByRole('article', { name: 'Front desk' }))
    await userEvent.click(card.getByRole('button', { name: courier.carried.print }))
    const paper = screen.getByRole('article', { name: courier.carried.receipt.title })
    expect(within(paper).getAllByRole('row')).toHaveLength(3)
    expect(paper.textContent).toContain(DROPPED[0]?.patient.recordNumber ?? 'none')
    expect(paper.textContent).not.toContain('Alex Invented')
    await userEvent.click(card.getByRole('button', { name: courier.back }))
    await userEvent.click(card.getByRole('button', { name: courier.backYes }))
    const [, taken] = app.calls.find(([name]) => name === 'courier.takeBack') ?? []
    expect(taken).toMatchObject({ act: 'a2', specimens: [{ tubeId: 't1' }, { tubeId: 't3' }] })
  })

  it('has no finding of axe', async () => {
    shown([...ALL, ...SENT, ...DROPPED])
    expect(await axeFindings()).toEqual([])
  })
})
