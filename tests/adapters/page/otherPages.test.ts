import { afterEach, expect, it, vi } from 'vitest'
import { createOtherPages } from '../../../src/adapters/page/otherPages.ts'

/** Node's own `BroadcastChannel`, after HTML's; closed at the end, since it keeps the process. */
const channels: BroadcastChannel[] = []
const open = (name: string): BroadcastChannel => {
  const channel = new BroadcastChannel(name)
  channels.push(channel)
  return channel
}
afterEach(() => channels.splice(0).forEach((channel) => channel.close()))

it('tells every other page, and never the one that tells', async () => {
  const [a, b, c, other] = ['clinic', 'clinic', 'clinic', 'else'].map((name) =>
    createOtherPages(open, name),
  )
  const heard: string[] = []
  a?.onTold(() => heard.push('a'))
  b?.onTold(() => heard.push('b'))
  c?.onTold(() => heard.push('c'))
  other?.onTold(() => heard.push('other'))
  a?.tell()
  await vi.waitFor(() => expect([...heard].sort()).toEqual(['b', 'c']))
})

it('does nothing where the browser has no channels', () => {
  const alone = createOtherPages(undefined, 'clinic')
  alone.onTold(() => undefined)
  expect(() => alone.tell()).not.toThrow()
})
