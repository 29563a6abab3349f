import type { Walk } from './walkStates.ts'

/** A way from one step's screen to another's. `asked`: by doing what the screen asks for. */
export interface StepEdge {
  readonly from: string
  readonly to: string
  readonly asked: boolean
}

/** The draw as steps: which screen follows which, over all states walked. */
export function stepGraph({ states }: Walk): readonly StepEdge[] {
  const edges = new Map<string, StepEdge>()
  for (const { step: from, next } of states.values()) {
    for (const { key, asked } of next) {
      const to = states.get(key)?.step
      if (to === undefined || to === from) continue
      const id = `${from} ${to}`
      if (!edges.get(id)?.asked) edges.set(id, { from, to, asked })
    }
  }
  return [...edges.values()].sort((a, b) => `${a.from} ${a.to}`.localeCompare(`${b.from} ${b.to}`))
}
