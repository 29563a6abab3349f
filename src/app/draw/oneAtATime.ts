/**
 * Lets one piece of work through at a time: what is asked for while it is under way is ignored, so that a second press
 * of a button, or a key that is held, counts once.
 */
export function createOneAtATime(): (work: () => Promise<void>) => Promise<void> {
  let busy = false
  return async (work) => {
    if (busy) return
    busy = true
    try {
      await work()
    } finally {
      busy = false
    }
  }
}
