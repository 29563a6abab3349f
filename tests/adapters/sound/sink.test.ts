import { describe, expect, it } from 'vitest'
import {
  sinkOf,
  sinkWay,
  type RoutedContext,
  type RoutedElement,
} from '../../../src/adapters/sound/sink.ts'

/** A node that tells to what it is connected. */
function fakeGain() {
  const to = new Set<unknown>(['destination'])
  const node = {
    connect: (other: unknown) => void to.add(other),
    disconnect: () => to.clear(),
  } as unknown as AudioNode
  return { node, to }
}
const destination = 'destination' as unknown as AudioNode

describe('the sink of a context', () => {
  it('is its own where it has one', async () => {
    const context = {
      destination,
      sinkId: '',
      async setSinkId(id: string) {
        this.sinkId = id
      },
    }
    const sink = sinkOf(context, fakeGain().node, () => ({}) as RoutedElement)
    await sink?.set('ear')
    expect(sink?.now()).toBe('ear')
  })

  it('that plays nothing at all is at no output', () => {
    const context = { destination, sinkId: { type: 'none' }, setSinkId: () => Promise.resolve() }
    expect(sinkOf(context, fakeGain().node, () => ({}) as RoutedElement)?.now()).not.toBe('')
  })

  it('is an audio element’s where only those can be sent: one way out at a time, never both', async () => {
    const { node, to } = fakeGain()
    const tap = { stream: {} as MediaStream } as AudioNode & { stream: MediaStream }
    const context: RoutedContext = { destination, createMediaStreamDestination: () => tap }
    const played: string[] = []
    const element = {
      srcObject: null as MediaStream | null,
      sinkId: '',
      async setSinkId(id: string) {
        if (id === 'refused') throw new Error('NotAllowedError')
        this.sinkId = id
      },
      async play() {
        played.push(this.sinkId)
      },
      pause: () => void played.push('paused'),
    }
    const sink = sinkOf(context, node, () => element)
    expect(sink?.now()).toBe('')
    await expect(sink?.set('refused')).rejects.toThrow('NotAllowedError')
    expect([...to]).toEqual(['destination'])
    await sink?.set('ear')
    expect([...to]).toEqual([tap])
    expect([sink?.now(), element.srcObject]).toEqual(['ear', tap.stream])
    await sink?.set('')
    expect([...to]).toEqual(['destination'])
    expect(sink?.now()).toBe('')
    expect(played).toEqual(['ear', 'paused'])
  })

  it('is none where nothing can be sent anywhere', () => {
    const context = { destination }
    expect(sinkOf(context, fakeGain().node, () => ({}) as RoutedElement)).toBeUndefined()
    expect(sinkWay(context, { setSinkId: () => undefined })).toBeUndefined()
  })
})
