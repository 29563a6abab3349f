/** Does work one after the other, in the order in which it is asked for; what fails keeps nothing behind it back. */
export function createTurns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const mine = last.then(work)
    last = mine.catch(() => undefined)
    return mine
  }
}
