import type { Finding, Measure } from './inPage/finding.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

/** What is not kept on single screens, and why it is left so. */
export interface Open {
  readonly measures: readonly Measure[]
  readonly states: RegExp
  readonly sizes: readonly string[]
  readonly why: string
}

export const OPEN: readonly Open[] = [
  {
    measures: ['tall'],
    states: /^special\/(labels of the laboratory|over the blood limit)|provider$/,
    sizes: ['390x844'],
    why: 'Where something has to be typed the keyboard takes half of a phone: the page moves, and says so at its foot.',
  },
]

/** Whether a finding is one of those that are known and left. */
export const isOpen = (
  { state, size }: Pick<ScreenMeasured, 'state' | 'size'>,
  { measure }: Pick<Finding, 'measure'>,
  open: readonly Open[] = OPEN,
): boolean =>
  open.some(
    ({ measures, states, sizes }) =>
      measures.includes(measure) && states.test(state) && sizes.includes(size),
  )
