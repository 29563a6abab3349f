import type { Page, TextFile } from '../../src/ports/page.ts'

/** A page that remembers what was asked of it. */
export interface FakePage extends Page {
  readonly saved: TextFile[]
  readonly copied: string[]
  readonly done: string[]
}

export function fakePage(): FakePage {
  const saved: TextFile[] = []
  const copied: string[] = []
  const done: string[] = []
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
  }
}
