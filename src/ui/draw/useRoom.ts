import { useLayoutEffect, useRef, type RefObject } from 'react'

/** How much room the words of a step have, the most first: what is read afar is as large as it can be and no larger. */
const ROOMS = ['vast', 'huge', 'large', 'usual', 'close', 'tight'] as const
const LARGER: ReadonlySet<string> = new Set(['vast', 'huge', 'large'])
/** A larger instruction has no more lines than this, so that it stays one glance; what stands upright has more. */
const LINES_n = { lying: 2, upright: 3 } as const
const PHONE_px = 700
/** How large the tubes on the shelf may be where the words leave room, the largest first. */
const SHELVES = ['vast', 'huge', 'usual'] as const
/** The painter rounds, px. */
const SLACK_px = 1

/**
 * Keeps on the page of the draw which size its words have room for, as `data-room`, and after them the tubes, as
 * `data-shelf`; the style sheets say what each means. None is smaller than what is read at two metres: `close` draws together what stands beside the instruction,
 * `tight` also leaves out the rack.
 */
export function useRoom(): RefObject<HTMLDivElement | null> {
  const page = useRef<HTMLDivElement>(null)
  const fitted = useRef('')
  useLayoutEffect(() => {
    const fit = (): void => {
      const { current } = page
      if (!current) return
      const known = lookOf(current)
      if (known === fitted.current) return
      const { dataset } = current
      delete dataset['shelf']
      const room = ROOMS.find((each) => {
        dataset['room'] = each
        return hasRoom(current, each)
      })
      const shelf = SHELVES.find((each) => {
        dataset['shelf'] = each
        return room !== undefined && room !== 'tight' && hasRoom(current, room)
      })
      if (!shelf) delete dataset['shelf']
      // What has no room even so is scrolled to, and a sign says that there is more.
      current.toggleAttribute('data-longer', room === undefined)
      fitted.current = known
    }
    fit()
    window.addEventListener('resize', fit)
    return () => window.removeEventListener('resize', fit)
  })
  return page
}

/** What the fit depends on. The figures of clocks are as wide as each other. */
function lookOf(page: HTMLElement): string {
  const words = (page.textContent ?? '').replace(/\d/g, '0')
  return `${innerWidth} ${innerHeight} ${page.closest('.draw')?.className ?? ''} ${words}`
}

/** Only what stands in it is laid out. One with a box of no height has no room. */
const hasNoBox = (part: Element): boolean => part.getClientRects().length === 0

const PARTS = '.top, main, .stage, .say, .sayMore, .stageFoot'

function hasRoom(page: HTMLElement, room: (typeof ROOMS)[number]): boolean {
  const instruction = page.querySelector('.instruction')
  if (instruction && LARGER.has(room)) {
    const lines_n = innerWidth < innerHeight ? LINES_n.upright : LINES_n.lying
    const line_px = parseFloat(getComputedStyle(instruction).lineHeight)
    if (instruction.clientHeight > (lines_n + 0.5) * line_px) return false
    if (instruction.scrollWidth > instruction.clientWidth + SLACK_px) return false
  }
  const { scrollHeight, clientHeight } = document.documentElement
  if (scrollHeight > clientHeight + SLACK_px) return false
  // On a phone nothing moves within the page.
  if (innerWidth < PHONE_px) return true
  return [...page.querySelectorAll(PARTS)].every(
    (part) => part.scrollHeight <= part.clientHeight + SLACK_px || hasNoBox(part),
  )
}
