import type { StripDrawing, StripLook, StripShape } from './stripDrawing.ts'

/** Ink on white, so that a copier keeps it: the hatching and the words say what color says on the screen. */
const STYLE: Readonly<Record<StripLook, string>> = {
  axis: 'stroke:#000;stroke-width:1.5',
  tick: 'stroke:#000;stroke-width:.7',
  minute: 'stroke:#000;stroke-width:1.2',
  fold: 'stroke:#000;stroke-width:1.2;fill:#fff',
  lead: 'stroke:#999;stroke-width:.6',
  band: 'fill:#ccc;stroke:#000',
  search: 'fill:#fff;stroke:#000;stroke-dasharray:3 2',
  over: 'fill:url(#hatch);stroke:#000;stroke-width:1.5',
  needle: 'fill:#000;stroke:#000',
  pressure: 'fill:#fff;stroke:#000',
  tube: 'fill:#ddd;stroke:#000',
  discard: 'fill:#fff;stroke:#000;stroke-dasharray:2 2',
  lostTube: 'fill:url(#hatch);stroke:#000',
  mixed: 'stroke:#000;stroke-width:1.2;fill:none',
  dot: 'stroke:#000;stroke-width:1.6',
  cue: 'stroke:#000;stroke-width:1.2;fill:#fff',
  trouble: 'fill:#000;stroke:#000',
  corrected: 'stroke:#000;stroke-width:3;stroke-dasharray:2 2',
  time: 'font-size:13px',
  word: 'font-size:15px',
  loud: 'font-size:15px;font-weight:700',
}

const HEAD = 20

/**
 * The drawing as a file of its own. Text from a record is escaped; nothing in it is loaded from elsewhere.
 * @param head lines above it: of which draw it is, and what a reader must know first.
 */
export function stripSvg(drawing: StripDrawing, head: readonly string[]): string {
  const { width, shapes, about } = drawing
  const top = -14 - HEAD * head.length
  const height = drawing.height - top
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 ${top} ${width} ${height}" width="${width}" height="${height}" role="img" font-family="Helvetica, Arial, sans-serif">`,
    `<title>${escaped(head[0] ?? '')}</title>`,
    `<desc>${escaped(about)}</desc>`,
    '<defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">',
    '<rect width="6" height="6" fill="#fff"/><path d="M0 0V6" stroke="#000" stroke-width="2.4"/></pattern></defs>',
    `<rect y="${top}" width="${width}" height="${height}" fill="#fff"/>`,
    ...head.map(
      (line, i) =>
        `<text x="3" y="${top + HEAD * (i + 1) - 5}" style="${i === 0 ? STYLE.word : STYLE.loud}">${escaped(line)}</text>`,
    ),
    ...shapes.map(shapeText),
    '</svg>',
    '',
  ].join('\n')
}

function shapeText(shape: StripShape): string {
  const style = `style="${STYLE[shape.look]}"`
  switch (shape.kind) {
    case 'line':
      return `<line x1="${n(shape.x1)}" y1="${n(shape.y1)}" x2="${n(shape.x2)}" y2="${n(shape.y2)}" ${style}/>`
    case 'bar':
      return `<rect x="${n(shape.x)}" y="${n(shape.y)}" width="${n(shape.width)}" height="${n(shape.height)}" ${style}/>`
    case 'path':
      return `<path d="${shape.d}" ${style}/>`
    case 'text': {
      const anchor = shape.middle ? ' text-anchor="middle"' : ''
      return `<text x="${n(shape.x)}" y="${n(shape.y)}"${anchor} ${style}>${escaped(shape.text)}</text>`
    }
  }
}

const n = (value: number): number => Math.round(value * 100) / 100

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
}

/** As text of XML 1.0 (W3C): what no XML may hold is left out. */
const escaped = (text: string): string =>
  text
    // eslint-disable-next-line no-control-regex -- the characters that XML 1.0 forbids
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replaceAll(/[&<>"]/g, (letter) => ENTITIES[letter] ?? '')
