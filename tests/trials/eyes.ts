import type { Page } from 'playwright-core'

/** Something on the page that can be pressed or filled in, found by the words a person sees on or beside it. */
export interface Seen {
  readonly words: string
  /** Middle of it, CSS px from the window's corner; outside of the window where it must be scrolled to. */
  readonly x: number
  readonly y: number
  readonly isInSight: boolean
}

/** Finds a control by its visible words: alike first, then beginning so, then holding them; `undefined` for none. */
export const findByWords = (page: Page, words: string): Promise<Seen | undefined> =>
  page.evaluate((wanted) => {
    const plain = (text: string): string =>
      text.toLowerCase().replace(/[“”"]/g, '').replace(/\s+/g, ' ').trim()
    const seek = plain(wanted)
    const all = [
      ...document.querySelectorAll<HTMLElement>(
        'button, a[href], input, select, textarea, summary',
      ),
    ]
    const beside = (control: HTMLElement): string => {
      if (!/^(INPUT|SELECT|TEXTAREA)$/.test(control.tagName)) return control.innerText
      return [...((control as HTMLInputElement).labels ?? [])]
        .map((label) => label.innerText)
        .join(' ')
    }
    const found = all
      .filter((control) => !control.closest('[inert]') && control.checkVisibility())
      .map((control) => ({ control, text: plain(beside(control)) }))
      .filter(({ text }) => text.includes(seek))
    const rank = (text: string): number => (text === seek ? 0 : text.startsWith(seek) ? 1 : 2)
    found.sort((a, b) => rank(a.text) - rank(b.text))
    const best = found[0]
    if (!best) return undefined
    const { control, text } = best
    const box = control.getBoundingClientRect()
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2]
    const hit = document.elementFromPoint(x, y)
    const isInSight = hit !== null && (control.contains(hit) || hit.contains(control))
    return { words: text, x, y, isInSight }
  }, words)

export interface DrawSeen {
  readonly instruction: string
  /** The words on the large choice, or on the first answer where the step has several. */
  readonly next: string | undefined
  /** Left, top, right and bottom of the large choice, CSS px. */
  readonly main: readonly number[] | undefined
  /** The words of the labels and of the rack, which change where the step stays. */
  readonly tubes: string
  readonly isClosed: boolean
}

/** What the draw screen says and asks for, as far as it is in sight. */
export const readDraw = (page: Page): Promise<DrawSeen> =>
  page.evaluate(() => {
    const isThere = (element: HTMLElement | null): boolean => {
      if (!element || element.closest('[inert]') || !element.checkVisibility()) return false
      const { left, top, width, height } = element.getBoundingClientRect()
      const hit = document.elementFromPoint(left + width / 2, top + height / 2)
      return width > 0 && hit !== null && (element.contains(hit) || hit.contains(element))
    }
    const first = (selector: string): HTMLElement | undefined =>
      [...document.querySelectorAll<HTMLElement>(selector)].find(isThere)
    const main = first('[data-place="main"]')
    const next = main ?? first('[data-place="answer"]')
    const box = main?.getBoundingClientRect()
    const spoken = next?.querySelector<HTMLElement>('.phrase') ?? next
    return {
      instruction: first('[data-part="instruction"]')?.innerText ?? '',
      next: spoken?.innerText.split('\n')[0]?.replace(/[“”]/g, ''),
      main: box && [box.left, box.top, box.right, box.bottom],
      tubes: [...document.querySelectorAll<HTMLElement>('.labels, [data-part="rack"], .rackStrip')]
        .map((part) => part.innerText)
        .join(' '),
      isClosed: document.querySelector('.draw .closed, .draw.isClosed') !== null,
    }
  })
