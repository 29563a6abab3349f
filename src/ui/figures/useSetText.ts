import { readSetKey } from '../../core/flow/setKey.ts'
import { useFigureTexts } from './useFigureTexts.ts'

/** A set by its key, in words. */
export function useSetText(): (key: string) => string {
  const { texts, fill } = useFigureTexts()
  return (key) => {
    const { kind, wall, ...lengths } = readSetKey(key)
    return fill(texts.fills.setText, {
      ...lengths,
      kind: texts.fills.kinds[kind],
      wall: texts.fills.walls[wall],
    })
  }
}
