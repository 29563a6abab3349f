/** What can be sent to one of the outputs. */
export interface Sink {
  /** Rejects where the browser refuses. */
  set(id: string): Promise<void>
  /** Where it goes now; empty for the default output. */
  now(): string
}

/** An `AudioContext` as far as it is needed here; what a browser lacks is missing. */
export interface RoutedContext {
  readonly destination: AudioNode
  setSinkId?: (id: string) => Promise<void>
  readonly sinkId?: unknown
  createMediaStreamDestination?: () => AudioNode & { readonly stream: MediaStream }
}

/** An audio element as far as it is needed here. */
export interface RoutedElement {
  srcObject: MediaStream | MediaSource | Blob | null
  play(): Promise<void>
  pause(): void
  setSinkId?: (id: string) => Promise<void>
  readonly sinkId?: string
}

/** Whether a browser can send a page's sound to an output of its choice, and how. */
export function sinkWay(context: object, element: object): 'context' | 'element' | undefined {
  if ('setSinkId' in context) return 'context'
  return 'setSinkId' in element && 'createMediaStreamDestination' in context ? 'element' : undefined
}

/**
 * The sink of a context, by its own means or, where only audio elements can be sent to an output, through one.
 * @param gain what all sounds pass through on their way out
 */
export function sinkOf(
  context: RoutedContext,
  gain: AudioNode,
  makeElement: () => RoutedElement,
): Sink | undefined {
  if ('setSinkId' in context) return contextSink(context)
  const element = makeElement()
  return sinkWay(context, element) === 'element' ? elementSink(context, gain, element) : undefined
}

const contextSink = (context: RoutedContext): Sink => ({
  set: (id) => context.setSinkId?.(id) ?? Promise.reject(new Error('No sink.')),
  // An object stands for an output that plays nothing at all.
  now: () => (typeof context.sinkId === 'string' ? context.sinkId : 'other'),
})

function elementSink(context: RoutedContext, gain: AudioNode, element: RoutedElement): Sink {
  const tap = context.createMediaStreamDestination?.()
  let through = false
  return {
    async set(id) {
      if (id === '') {
        // Straight out again: an element may stay silent where its output has gone.
        if (through) gain.disconnect()
        if (through) gain.connect(context.destination)
        through = false
        element.pause()
        return
      }
      if (!tap) throw new Error('No sink.')
      await element.setSinkId?.(id)
      if (!through) {
        // The old way out is shut before the new one opens: no word comes from both.
        gain.disconnect()
        gain.connect(tap)
        through = true
      }
      element.srcObject = tap.stream
      await element.play()
    },
    now: () => (through ? (element.sinkId ?? '') : ''),
  }
}
