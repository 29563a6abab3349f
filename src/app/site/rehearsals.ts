/** When each script was last begun on this device, as the settings keep it: `slow-flow=1795600000000 heel=...`. */
export type Rehearsals = string

const ONE = /^([\w-]{1,60})=(\d{1,15})$/

/** Whether that is a list as `withRehearsal` writes it. */
export const isRehearsals = (text: string): boolean =>
  text === '' || text.split(' ').every((each) => ONE.test(each))

/** Unix ms by the name of the script. */
export function rehearsedAt(kept: Rehearsals): ReadonlyMap<string, number> {
  const found = kept.split(' ').flatMap((each) => {
    const [, id, at] = ONE.exec(each) ?? []
    return id === undefined ? [] : [[id, Number(at)] as const]
  })
  return new Map(found)
}

/** The list with that script begun at that moment. */
export function withRehearsal(kept: Rehearsals, id: string, at_ms: number): Rehearsals {
  const all = new Map([...rehearsedAt(kept), [id, Math.round(at_ms)] as const])
  return [...all].map(([each, at]) => `${each}=${at}`).join(' ')
}
