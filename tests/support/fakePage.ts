import type { Page, TextFile } from '../../src/ports/page.ts'

/** A page that remembers what was asked of it. */
export interface FakePage extends Page {
  readonly saved: TextFile[]
  readonly copied: string[]
  readonly done: string[]
  /** Whether the browser would ask before it closes the page. */
  isAsking(): boolean
  /** Somebody touches the page. */
  use(): void
  /** The page is seen again. */
  comeBack(): void
  /** The page goes out of sight, is frozen or is left. */
  leave(): void
}

export function fakePage(): FakePage {
  const saved: TextFile[] = []
  const copied: string[] = []
  const done: string[] = []
  const returns: (() => void)[] = []
  const leaves: (() => void)[] = []
  const uses: (() => void)[] = []
  let asks = (): boolean => false
  return {
    saved,
    copied,
    done,
    print: () => void done.push('print'),
    copyText: (text) => {
      copied.push(text)
      return Promise.resolve(true)
    },
    saveText: (file) => void saved.push(file),
    readText: (path) => Promise.reject(new Error(`${path} is not there.`)),
    startAnew: () => void done.push('startAnew'),
    onReturn: (back) => void returns.push(back),
    onLeave: (leave) => void leaves.push(leave),
    askBeforeLeaving: (condition) => void (asks = condition),
    onUse: (use) => void uses.push(use),
    keptElsewhere: () => Promise.resolve(undefined),
    askToKeep: () => Promise.resolve(true),
    use: () => uses.forEach((use) => use()),
    isAsking: () => asks(),
    leave: () => leaves.forEach((leave) => leave()),
    comeBack: () => returns.forEach((back) => back()),
  }
}
