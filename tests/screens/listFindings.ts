import type { Measure } from './inPage/finding.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

/** One fault of the screens: the same measure at the same place, wherever it shows. */
export interface ListedFault {
  readonly measure: Measure
  readonly selector: string
  readonly n: number
  readonly sizes: readonly string[]
  readonly themes: readonly string[]
  readonly states: readonly string[]
  readonly example: {
    readonly state: string
    readonly size: string
    readonly theme: string
    readonly says: string
  }
}

/** What is wrong, the most frequent first. */
export function listFindings(screens: readonly ScreenMeasured[]): readonly ListedFault[] {
  const faults = new Map<string, ScreenFault[]>()
  for (const screen of screens) {
    for (const { measure, selector, says } of screen.findings) {
      const key = `${measure} ${selector}`
      const { state, size, theme } = screen
      const fault = { measure, selector, says, state, size, theme }
      faults.set(key, [...(faults.get(key) ?? []), fault])
    }
  }
  return [...faults.values()].map(listed).sort((a, b) => b.n - a.n)
}

interface ScreenFault extends Pick<ScreenMeasured, 'state' | 'size' | 'theme'> {
  readonly measure: Measure
  readonly selector: string
  readonly says: string
}

function listed(all: readonly ScreenFault[]): ListedFault {
  const [first] = all
  if (!first) throw new Error('No fault is listed without one.')
  const { measure, selector, ...example } = first
  return {
    measure,
    selector,
    n: all.length,
    sizes: [...new Set(all.map(({ size }) => size))],
    themes: [...new Set(all.map(({ theme }) => theme))],
    states: [...new Set(all.map(({ state }) => state))],
    example,
  }
}

/** The list as text: one line a fault and an example below it. */
export function faultLines(faults: readonly ListedFault[]): string {
  return faults
    .map(({ measure, selector, n, sizes, themes, states, example }) =>
      [
        `${n} x ${measure}  ${selector}  (${states.length} states; ${sizes.join(' ')}; ${themes.join(' ')})`,
        `    ${example.size} ${example.theme}, ${example.state}: ${example.says}`,
        ...(states.length > 1 ? [`    also ${states.slice(1, 5).join('; ')}`] : []),
      ].join('\n'),
    )
    .join('\n')
}
