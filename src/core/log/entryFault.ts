import { isRecord } from '../basics/isRecord.ts'
import { ownValue } from '../basics/ownValue.ts'
import { SOURCES } from '../protocol/entry.ts'
import { quoted } from '../text/shownText.ts'
import { logFault, type LogFault } from './fault.ts'
import { flag, length, oneOf, optional, shapeOf, text, time, type Shape } from './shape.ts'

const stampShape = shapeOf({
  at_ms: time,
  wall_ms: time,
  mono_ms: length,
  boot: text,
  offset_min: time,
})

const entryShape = shapeOf({
  at: stampShape,
  by: text,
  source: oneOf(SOURCES),
  heard: optional(text),
  held: optional(flag),
})

/**
 * Says what is wrong with the entry of that number, or `undefined`.
 * @param shapes of the events that its log may hold, by their type
 */
export function entryFaultBy(
  shapes: Readonly<Record<string, Shape>>,
  entry: unknown,
  seq: number,
): LogFault | undefined {
  const shape = entryShape(entry, 'entry')
  if (shape) return { ...logFault('shape', seq), shape }
  const { event } = entry as { event: unknown }
  const type = isRecord(event) ? event['type'] : undefined
  const ofType = typeof type === 'string' ? ownValue(shapes, type) : undefined
  if (typeof type !== 'string' || !ofType) {
    const shown = typeof type === 'string' ? quoted(type) : '""'
    return logFault('unknownEvent', seq, { type: shown })
  }
  const fault = ofType(event, type)
  return fault ? { ...logFault('shape', seq), shape: fault } : undefined
}
