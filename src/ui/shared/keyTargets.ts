/** A place to type in keeps all its keys. */
export const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName))

/** What Space and Enter press by themselves. */
export const isPressable = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('button, a[href], summary') !== null
