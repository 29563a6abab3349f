// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from 'vitest'
import { createBrowserPage } from '../../../src/adapters/page/browserPage.ts'

/** What the Page Lifecycle (WICG) and HTML's page transition events say of a page, as a browser tells it. */
function tell(target: EventTarget, name: string, more: object = {}): void {
  target.dispatchEvent(Object.assign(new Event(name), more))
}

function setSeen(state: DocumentVisibilityState): void {
  vi.spyOn(document, 'visibilityState', 'get').mockReturnValue(state)
  tell(document, 'visibilitychange')
}

const page = createBrowserPage((path) => path)
const back = vi.fn()
const leave = vi.fn()
page.onReturn(back)
page.onLeave(leave)

afterEach(() => {
  back.mockClear()
  leave.mockClear()
})

describe('the page in a browser', () => {
  it.each([
    ['is seen again', () => setSeen('visible')],
    ['runs again after it was frozen', () => tell(document, 'resume')],
    ['comes out of the back/forward cache', () => tell(window, 'pageshow', { persisted: true })],
    ['is on its network again', () => tell(window, 'online')],
  ])('calls back once when it %s', (_, happens) => {
    happens()
    expect([back.mock.calls.length, leave.mock.calls.length]).toEqual([1, 0])
  })

  it.each([
    ['goes out of sight', () => setSeen('hidden')],
    ['is frozen', () => tell(document, 'freeze')],
    ['is left', () => tell(window, 'pagehide')],
  ])('calls once when it %s', (_, happens) => {
    happens()
    expect([back.mock.calls.length, leave.mock.calls.length]).toEqual([0, 1])
  })

  it('says nothing of a page that is only loaded', () => {
    tell(window, 'pageshow', { persisted: false })
    expect([back.mock.calls.length, leave.mock.calls.length]).toEqual([0, 0])
  })
})

it('prints once for a double press, and again when it is asked for later', () => {
  vi.useFakeTimers()
  const print = vi.spyOn(window, 'print').mockImplementation(() => undefined)
  const page = createBrowserPage((path) => path)
  page.print()
  page.print()
  vi.advanceTimersByTime(400)
  page.print()
  expect(print).toHaveBeenCalledTimes(1)
  vi.advanceTimersByTime(1000)
  page.print()
  expect(print).toHaveBeenCalledTimes(2)
  vi.useRealTimers()
})

describe('a text that is served beside the page', () => {
  const serve = (body: BodyInit, status = 200): void =>
    void vi.stubGlobal('fetch', () => Promise.resolve(new Response(body, { status })))
  afterEach(() => void vi.unstubAllGlobals())

  it('is read whole, also where only so much of it was wanted', async () => {
    serve('Ärzte')
    expect(await page.readText('hub.json')).toBe('Ärzte')
    serve('Ärzte')
    expect(await page.readText('hub.json', 100)).toBe('Ärzte')
  })

  it('that has no end is read no further than it is wanted', async () => {
    let given_B = 0
    const chunk = new Uint8Array(1000).fill(0x61)
    const endless = new ReadableStream({
      pull: (controller) => {
        given_B += chunk.length
        controller.enqueue(chunk)
      },
    })
    serve(endless)
    expect((await page.readText('hub.json', 5500)).length).toBe(6000)
    expect(given_B).toBeLessThan(20_000)
  })

  it('is refused where there is none', async () => {
    serve('', 404)
    await expect(page.readText('hub.json', 100)).rejects.toThrow('hub.json is not there (404).')
  })
})
