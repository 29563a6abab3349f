/** Whether a person can see an element: it is drawn, not behind an open sheet, and not only for screen readers. */
export function isSeen(element: Element): boolean {
  if (element.closest('[inert]') || element.closest('.visuallyHidden')) return false
  if (!element.checkVisibility({ opacityProperty: true, visibilityProperty: true })) return false
  const { width, height } = element.getBoundingClientRect()
  return width > 1 && height > 1
}

const CONTROLS = 'button, a[href], input, select, textarea, summary, [role="button"]'

/** Everything that can be pressed or filled in, where it is seen. */
export function controls(): readonly Element[] {
  return [...document.querySelectorAll(CONTROLS)].filter(isSeen)
}

/** A short way to name an element: what it is for, its tag and classes, within the part it stands in. */
export function selectorOf(element: Element): string {
  const own = nameOf(element)
  const around = element.parentElement?.closest('[data-part], [data-place], [class]')
  return around && around !== document.body ? `${nameOf(around)} ${own}` : own
}

function nameOf(element: Element): string {
  for (const key of ['data-place', 'data-part', 'data-screen']) {
    const value = element.getAttribute(key)
    if (value !== null) return `[${key}="${value}"]`
  }
  const classes = [...element.classList].map((name) => `.${name}`).join('')
  return `${element.tagName.toLowerCase()}${element.id ? `#${element.id}` : classes}`
}

export const wordsOf = (element: Element): string =>
  (element.getAttribute('aria-label') ?? element.textContent ?? '')
    .trim()
    .replace(/\s+/g, ' ')
    .slice(0, 60)

/** Runs with everything on the page open to the pointer, so that what only lies over something is found as well. */
export function withAllHit<T>(run: () => T): T {
  const style = document.createElement('style')
  style.textContent = '*, *::before, *::after { pointer-events: auto !important; }'
  document.head.append(style)
  try {
    return run()
  } finally {
    style.remove()
  }
}
