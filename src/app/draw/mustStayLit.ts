import type { DrawView } from '../view/drawViewTypes.ts'
import type { LeftDraw } from './leftRunning.ts'

interface LitState {
  readonly screen: { readonly name: string }
  readonly draw: Pick<DrawView, 'closed' | 'elsewhere' | 'mainClock' | 'otherClocks'> | undefined
  readonly left: readonly LeftDraw[]
}

/**
 * Whether the screen must not go dark: a draw that is not closed is before the person, or a clock of one runs while
 * another screen is. Nobody who draws has a hand free to touch a screen.
 */
export function mustStayLit({ screen, draw, left }: LitState): boolean {
  if (left.some(({ clocks }) => clocks.length > 0)) return true
  if (!draw || draw.closed) return false
  if (screen.name === 'draw') return true
  // Where another page runs it, that one shows its clocks.
  return !draw.elsewhere && (draw.mainClock !== undefined || draw.otherClocks.length > 0)
}
