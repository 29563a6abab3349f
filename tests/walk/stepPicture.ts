import { BOX, COLUMNS, places, type Place } from './layout.ts'
import type { StepEdge } from './stepGraph.ts'

const INK = '#1c2b33'
const STRAIGHT = '#0b6e63'
const OTHER = '#b3541e'
const FRAME = '#5f7480'

/** The steps as a picture: the straight way bold, ways that only an exception opens thin, drawn beside the columns. */
export function stepPicture(
  straight: readonly StepEdge[],
  other: readonly StepEdge[],
  titles: Readonly<Record<string, { readonly title: string } | undefined>>,
  caption: readonly string[],
): string {
  const at = places()
  const rows = Math.max(...COLUMNS.map(({ steps }) => steps.length))
  const width = BOX.left * 2 + COLUMNS.length * BOX.width + (COLUMNS.length - 1) * BOX.columnGap
  const bottom = BOX.top + rows * (BOX.height + BOX.rowGap)
  const height = bottom + caption.length * 20 + 16
  const lines = (edges: readonly StepEdge[], color: string, thick: number): string =>
    edges
      .map(({ from, to }) => {
        const [a, b] = [at.get(from), at.get(to)]
        if (!a || !b) throw new Error(`No place in the picture for ${from} or ${to}.`)
        return `<path d="${curve(a, b)}" fill="none" stroke="${color}" stroke-width="${thick}" stroke-opacity="${thick > 1 ? 1 : 0.55}" marker-end="url(#${color.slice(1)})"/>`
      })
      .join('\n')
  const boxes = [...at].map(([id, { x, y }]) =>
    `<rect x="${x}" y="${y}" width="${BOX.width}" height="${BOX.height}" rx="6" fill="#ffffff" stroke="${FRAME}"/>
<text x="${x + BOX.width / 2}" y="${y + 22}" text-anchor="middle">${escape(titles[id]?.title ?? id)}</text>`) // prettier-ignore
  const heads = COLUMNS.map(({ title }, column) =>
    `<text x="${BOX.left + column * (BOX.width + BOX.columnGap) + BOX.width / 2}" y="${BOX.top - 24}" text-anchor="middle" font-weight="700" font-size="17">${title}</text>`) // prettier-ignore
  const notes = caption.map(
    (text, i) =>
      `<text x="${BOX.left}" y="${bottom + 12 + i * 20}" fill="${FRAME}">${escape(text)}</text>`,
  )
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="The steps of a draw and the ways between them" font-family="system-ui, sans-serif" font-size="14" fill="${INK}">
<rect width="${width}" height="${height}" fill="#f6f8f8"/>
<defs>${[STRAIGHT, OTHER].map(arrowHead).join('')}</defs>
<text x="${BOX.left}" y="38" font-size="22" font-weight="700">The steps of a draw</text>
${heads.join('\n')}
${lines(other, OTHER, 1)}
${lines(straight, STRAIGHT, 2.5)}
${boxes.join('\n')}
${notes.join('\n')}
</svg>
`
}

function arrowHead(color: string): string {
  return `<marker id="${color.slice(1)}" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="8" markerHeight="8" markerUnits="userSpaceOnUse" orient="auto"><path d="M0 0 8 4 0 8z" fill="${color}"/></marker>`
}

/** Down to the next box, in an arc beside the column, or across from side to side. */
function curve(a: Place, b: Place): string {
  const mid = BOX.height / 2
  if (a.column === b.column && b.row === a.row + 1) {
    const x = a.x + BOX.width / 2
    return `M${x} ${a.y + BOX.height} V${b.y - 1}`
  }
  if (a.column === b.column) {
    // Forward on the right of the column, back on its left; the further, the wider.
    const side = b.row > a.row ? 1 : -1
    const x = side > 0 ? a.x + BOX.width : a.x
    const bend = x + side * Math.min(52, 12 + 6 * Math.abs(b.row - a.row))
    const shift = side * 5
    return `M${x} ${a.y + mid + shift} C${bend} ${a.y + mid + shift} ${bend} ${b.y + mid - shift} ${x + side} ${b.y + mid - shift}`
  }
  const right = b.column > a.column
  const x1 = right ? a.x + BOX.width : a.x
  const x2 = right ? b.x - 1 : b.x + BOX.width + 1
  const pull = (right ? 1 : -1) * Math.max(46, Math.abs(x2 - x1) / 2)
  const shift = right ? -3 : 3
  return `M${x1} ${a.y + mid + shift} C${x1 + pull} ${a.y + mid + shift} ${x2 - pull} ${b.y + mid + shift} ${x2} ${b.y + mid + shift}`
}

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;')
