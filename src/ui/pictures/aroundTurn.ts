/** Room for the words of one tube, and for how many are not shown at an end, px. */
const TUBE_px = 92
const REST_px = 44
/** The tube whose turn it is takes the room of two. */
const TURN = 2

/**
 * Which tubes are shown with their words in so much width: all that fit, those around the turn.
 * @returns places from 0, `to` not included
 */
export function aroundTurn(
  count: number,
  turn: number,
  width_px: number,
): { readonly from: number; readonly to: number } {
  if ((count + TURN - 1) * TUBE_px <= width_px) return { from: 0, to: count }
  const fit = Math.max(1, Math.floor((width_px - 2 * REST_px) / TUBE_px) - TURN + 1)
  const from = Math.max(0, Math.min(turn - Math.floor((fit - 1) / 2), count - fit))
  return { from, to: Math.min(count, from + fit) }
}
