import { FIELD, GROUND, INK, type Stroke } from './dial.ts'

const short = (n: number): string => String(Math.round(n * 100) / 100)

function element(stroke: Stroke): string {
  if (stroke.kind === 'circle') {
    const { radius, width } = stroke
    return `<circle cx="${FIELD / 2}" cy="${FIELD / 2}" r="${short(radius)}" stroke-width="${short(width)}"/>`
  }
  const [[x1, y1], [x2, y2]] = [stroke.from.map(short), stroke.to.map(short)]
  return `<path d="M${x1} ${y1}L${x2} ${y2}" stroke-width="${short(stroke.width)}"/>`
}

/** The drawing as an SVG file. @param corner radius of the ground's corners, units */
export function toSvg(strokes: readonly Stroke[], corner: number): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${FIELD} ${FIELD}">`,
    `  <rect width="${FIELD}" height="${FIELD}" rx="${corner}" fill="${GROUND}"/>`,
    `  <g stroke="${INK}" fill="none" stroke-linecap="round">`,
    ...strokes.map((stroke) => `    ${element(stroke)}`),
    '  </g>',
    '</svg>',
    '',
  ].join('\n')
}
