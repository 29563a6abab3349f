import { useEffect, useEffectEvent } from 'react'
import type { KeyAct } from '../../core/scan/keyReader.ts'
import { listenToKeys } from './listenToKeys.ts'
import { useScanMarks } from './useScanMarks.ts'

/**
 * Reads every key of the page: keyboards, foot pedals that type keys, and scanners that type a code. What a scanner
 * types reaches neither a button nor a choice; see `core/scan/keyReader.ts` for how it is told from a person.
 * @param onAct what the keys mean; it says whether it wants the act, else the key is left to whatever has the focus.
 */
export function useKeyReader(onAct: (act: KeyAct) => boolean): void {
  const marks = useScanMarks()
  const act = useEffectEvent(onAct)
  const marksNow = useEffectEvent(() => marks)
  useEffect(() => {
    return listenToKeys(document, { marks: () => marksNow(), onAct: (each) => act(each) })
  }, [])
}
