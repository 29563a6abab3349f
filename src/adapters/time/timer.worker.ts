/** Keeps timers for the page: `{ id, delay_ms }` starts one, `{ id }` alone ends it; it answers with the id. */
interface TimerMessage {
  readonly id: number
  readonly delay_ms?: number
}

const timers = new Map<number, ReturnType<typeof setTimeout>>()

self.onmessage = ({ data }: MessageEvent<TimerMessage>) => {
  clearTimeout(timers.get(data.id))
  timers.delete(data.id)
  if (data.delay_ms === undefined) return
  const ring = (): void => {
    timers.delete(data.id)
    self.postMessage(data.id)
  }
  timers.set(data.id, setTimeout(ring, data.delay_ms))
}
