import type { SkinPlace } from '../../core/order/collecting.ts'

interface Drawing {
  /** The part of the drawing that is shown: the heel without the toes, the fingers without the wrist. */
  readonly view: string
  /** Twice the middle of it: a right one is the mirror of a left one. */
  readonly twiceMiddle: number
  readonly outline: string
  /** Where the skin may be lanced; all else of `barred` is hatched. */
  readonly open: string
  readonly barred: string
  readonly lines: string
}

const SOLE = [
  'M100 598 C52 598 30 556 34 500 C38 440 62 400 54 330 C48 280 28 236 32 186 C36 142 66 122 104 120',
  'C150 118 174 152 172 206 C170 276 150 322 152 400 C153 446 168 474 166 516 C163 568 146 598 100 598 Z',
].join(' ')
const toe = (x: number, y: number, wide: number, high: number): string =>
  `M${x - wide} ${y} a${wide} ${high} 0 1 0 ${2 * wide} 0 a${wide} ${high} 0 1 0 ${-2 * wide} 0`
const TOES = [
  toe(50, 92, 20, 26),
  toe(89, 74, 13, 18),
  toe(120, 80, 12, 17),
  toe(145, 94, 11, 15),
  toe(164, 116, 10, 14),
].join(' ')

/**
 * The sole of a left foot, toes up, as one faces it. Lanced at the outer edges of the heel's sole, never at its back
 * curve, in its middle, at the arch or a toe: there bone, nerve and tendon lie close below the skin (WHO guidelines on
 * drawing blood 2010, chapter on capillary sampling, from memory; state newborn screening pages, excerpts).
 */
const HEEL: Drawing = {
  view: '0 300 200 304',
  twiceMiddle: 200,
  outline: `${SOLE} ${TOES}`,
  open: [
    'M36 486 C34 528 42 556 58 578 L76 556 C64 536 62 512 66 480 Z',
    'M164 486 C168 528 158 556 142 578 L124 556 C136 536 138 512 134 480 Z',
  ].join(' '),
  barred: `${SOLE} ${TOES}`,
  lines: 'M62 330 C84 350 84 400 70 440',
}

const finger = (x: number, top: number, width: number): string =>
  `M${x} 330 L${x} ${top + width / 2} a${width / 2} ${width / 2} 0 0 1 ${width} 0 L${x + width} 330`
const INDEX = finger(40, 130, 26)
const MIDDLE = finger(72, 96, 27)
const RING = finger(104, 118, 26)
const LITTLE = finger(135, 186, 23)
const THUMB = 'M36 470 C14 440 4 392 2 352 C2 328 24 326 28 348 C32 376 40 392 40 402'
const PALM = 'M40 402 L40 330 M66 330 L72 330 M99 330 L104 330 M130 330 L135 330 M158 330 L160 460 C160 540 140 600 100 600 C66 600 44 540 36 470' // prettier-ignore
const bar = (x: number, top: number, width: number, height: number): string =>
  `M${x} ${top} h${width} v${height} h${-width} Z`
const side = (x: number, top: number): string => bar(x, top, 7, 58)

/**
 * The palm of a left hand, fingers up, as one faces it. Lanced at the side of the pad of the middle or ring finger;
 * not at thumb, index or little finger, nor in the middle of a tip (WHO guidelines on drawing blood 2010, from memory;
 * training pages of the trade).
 */
const FINGER: Drawing = {
  view: '-4 88 172 330',
  twiceMiddle: 164,
  outline: [THUMB, INDEX, MIDDLE, RING, LITTLE, PALM].join(' '),
  open: [side(73, 116), side(91, 116), side(105, 138), side(122, 138)].join(' '),
  barred: [`${THUMB} Z`, `${INDEX} Z`, `${LITTLE} Z`, bar(81, 100, 9, 74),
    bar(113, 122, 8, 74)].join(' '),
  lines: 'M72 190 H99 M104 206 H130 M52 430 C90 400 120 400 150 420',
} // prettier-ignore

/** What is drawn of a foot or hand, of the left one. */
export const SKIN_DRAWINGS: Readonly<Record<SkinPlace, Drawing>> = {
  capillaryHeel: HEEL,
  capillaryFinger: FINGER,
}
