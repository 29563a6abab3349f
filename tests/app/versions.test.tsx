// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { beforeEach, describe, expect, it } from 'vitest'
import { appRig, type AppRig } from '../support/appRig.ts'
import { fakePage, type FakePage } from '../support/fakePage.ts'
import { fakeVersions, type FakeVersions } from '../support/fakeVersions.ts'
import { FILLING } from '../support/views.ts'
import { axeFindings } from '../ui/axe.ts'
import { renderApp } from '../ui/renderApp.tsx'

let rig: AppRig
let page: FakePage
let versions: FakeVersions

beforeEach(async () => {
  page = fakePage()
  versions = fakeVersions()
  rig = appRig({ page, versions })
  await rig.app.start()
})

describe('a newer version of the app', () => {
  it('begins the page anew when it is taken', async () => {
    versions.say('waiting')
    expect(rig.state().version).toBe('waiting')
    await rig.actions.takeVersion()
    expect([versions.taken(), page.done]).toEqual([1, ['startAnew']])
  })

  it('is never taken during a draw, and the other pages are told that this one is busy', async () => {
    versions.say('waiting')
    await rig.begin()
    await rig.pass(1)
    await rig.actions.takeVersion()
    await rig.actions.go({ name: 'home' })
    await rig.actions.takeVersion()
    expect([versions.isBusy(), versions.taken(), page.done]).toEqual([true, 0, []])
    await rig.close()
    expect(versions.isBusy()).toBe(false)
  })

  it('is never taken while anything is unsaved', async () => {
    await rig.begin()
    rig.deps.logStore.append = () => Promise.reject(new Error('The disk is full.'))
    await rig.close()
    await rig.pass(3)
    expect(rig.state().unsaved).toBeDefined()
    await rig.actions.takeVersion()
    expect([versions.isBusy(), versions.taken(), page.done]).toEqual([true, 0, []])
  })

  it.each([
    ['busy', /another page of this app runs a draw/],
    ['failed', /Close every page/],
  ] as const)('that is not taken is told in words: %s', async (outcome, words) => {
    versions.say('waiting')
    versions.answer(outcome)
    await rig.actions.takeVersion()
    expect(rig.state().trouble).toMatch(words)
    expect(page.done).toEqual([])
  })

  it('that another page took begins this page anew where nothing is under way, and nowhere else', async () => {
    rig.actions.newDraw()
    versions.say('taken')
    expect(page.done).toEqual([])
    await rig.actions.takeVersion()
    expect([versions.taken(), page.done]).toEqual([0, ['startAnew']])
    page.done.length = 0
    await rig.actions.go({ name: 'home' })
    versions.say('taken')
    expect(page.done).toEqual(['startAnew'])
  })

  it('that another page took leaves a draw alone', async () => {
    await rig.begin()
    await rig.actions.go({ name: 'home' })
    versions.say('taken')
    expect(page.done).toEqual([])
  })
})

describe('the screens', () => {
  it('offer it on the first one, with one press', async () => {
    const app = renderApp({ version: 'waiting', draw: undefined })
    expect(await axeFindings()).toEqual([])
    await userEvent.click(screen.getByRole('button', { name: 'Take the new version' }))
    expect(app.calls).toEqual([['takeVersion']])
  })

  it('offer nothing while a draw runs behind them or something is not saved', () => {
    renderApp({ version: 'waiting', draw: FILLING })
    expect(screen.getByText(/It waits until the draw is closed/)).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Take the new version' })).toBeNull()
  })

  it.each([
    ['waiting', { screen: { name: 'order' } }],
    ['waiting', { screen: { name: 'draw', drawId: FILLING.drawId }, draw: FILLING }],
    ['taken', { screen: { name: 'draw', drawId: FILLING.drawId }, draw: FILLING }],
  ] as const)('say nothing of it elsewhere: %s', (version, where) => {
    renderApp({ version, ...where })
    expect(screen.queryByText(/new version/)).toBeNull()
  })

  it('say so wherever an old page stands beside a new one, before the next draw', () => {
    renderApp({ version: 'taken', screen: { name: 'order' }, draw: undefined })
    expect(screen.getByRole('button', { name: 'Begin anew' })).toBeTruthy()
  })
})
