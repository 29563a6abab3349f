export type Theme = 'light' | 'dark'

const ASKED = /prefers-color-scheme: *(light|dark)/
/** What each rule asked for before it was forced. */
const original = new WeakMap<CSSMediaRule, string>()

/** Shows the page light or dark whatever the machine asks for; without a theme as it asks. */
export function forceTheme(theme: Theme | undefined): void {
  document.documentElement.style.colorScheme = theme ?? ''
  for (const sheet of document.styleSheets) {
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof CSSMediaRule)) continue
      const text = original.get(rule) ?? rule.media.mediaText
      const asked = ASKED.exec(text)?.[1]
      if (asked === undefined) continue
      original.set(rule, text)
      rule.media.mediaText = !theme ? text : asked === theme ? 'all' : 'not all'
    }
  }
}
