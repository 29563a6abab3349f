import { fillText, type Text } from '../basics/fillText.ts'
import type { Handling } from '../catalogue/handling.ts'
import { fitFamilyFirst, type FittedName } from './fitName.ts'
import type { LabelModel } from './labels.ts'
import { textWidth_em } from './textWidth.ts'
import { wholeHours } from '../time/wholeHours.ts'

/** Label stock by its size, mm: 2 x 1 inch, and 2 1/4 x 1 1/4 inch, which all rows fit on at 8 pt. */
export const LABEL_STOCK = {
  small: { width_mm: 50.8, height_mm: 25.4 },
  large: { width_mm: 57.2, height_mm: 31.8 },
} as const
export type LabelStock = keyof typeof LABEL_STOCK

/** Rows of a label in the order they are printed; which give way first where not all fit is in `GIVES_WAY`. */
export const LABEL_ROWS = [
  'who',
  'collected',
  'point',
  'marks',
  'band',
  'policy',
  'sign',
  'limit',
  'tube',
  'site',
  'order',
] as const
export type LabelRowId = (typeof LABEL_ROWS)[number]

/** First to go first. What identifies the patient, the time and the time point never go, nor the site of a set. */
const GIVES_WAY: readonly LabelRowId[] = ['order', 'tube', 'site', 'sign', 'policy', 'limit']

/** A transfusion laboratory asks for the band's number; on other tubes it is one more row. */
const givesWay = ({ transfusion }: LabelModel): readonly LabelRowId[] =>
  transfusion ? GIVES_WAY : [...GIVES_WAY, 'band']

export interface LabelRow {
  readonly id: LabelRowId
  readonly left: string
  readonly right: string
  readonly bold: boolean
  readonly size_pt: number
}

export interface LaidLabel extends FittedName {
  readonly nameSize_pt: number
  readonly rows: readonly LabelRow[]
  readonly size_pt: number
  /** Rows that found no room. */
  readonly dropped: readonly LabelRowId[]
}

export type LabelText =
  | 'born'
  | 'record'
  | 'collected'
  | 'stat'
  | 'band'
  | 'bandBlank'
  | 'policy'
  | 'sign'
  | 'signShort'
  | 'order'
  | 'point'
  | 'held'
  | 'limit'
  | 'limitHours'

export interface LabelTexts extends Readonly<Record<LabelText, Text>> {
  /** Handling in one or two words, for the tube in the rack. */
  readonly marks: Readonly<Record<Handling, string>>
  readonly rows: Readonly<Record<LabelRowId, string>>
}

const POINT_mm = 25.4 / 72
/** Left free at the sides and at top and bottom, with the bars, mm. */
const SIDES_mm = 3
const TAKEN_mm = 2 + 6.5
const LINE = 1.12
const MOST_pt = 8
/** Below this nobody reads a tube in a rack. */
const LEAST_pt = 6
const NAME_SIZES_pt = [9, 8, 7] as const
/** Between what stands left and right. */
const GAP_em = 0.8

/**
 * Lays out a label: the name first, then as many rows as are legible, what matters for the patient before the rest.
 * Where rows find no room, handling moves beside the time, and the signature beside the band number.
 */
export function layLabel(label: LabelModel, stock: LabelStock, texts: LabelTexts): LaidLabel {
  const open = lay(label, stock, texts, false)
  if (open.dropped.length === 0) return open
  const close = lay(label, stock, texts, true)
  return close.dropped.length < open.dropped.length ? close : open
}

function limitText({ min, by }: NonNullable<LabelModel['limit']>, texts: LabelTexts): string {
  const h = wholeHours(min)
  return h === undefined
    ? fillText(texts.limit, { min, by })
    : fillText(texts.limitHours, { h, by })
}

function lay(label: LabelModel, stock: LabelStock, texts: LabelTexts, isClose: boolean): LaidLabel {
  const { width_mm, height_mm } = LABEL_STOCK[stock]
  const width_pt = (width_mm - SIDES_mm) / POINT_mm
  const { name, nameSize_pt } = fittedName(label, width_pt)
  const room_pt = (height_mm - TAKEN_mm) / POINT_mm - name.lines.length * nameSize_pt * LINE
  let rows = rowsOf(label, stock, texts, isClose ? width_pt : undefined)
  const dropped: LabelRowId[] = []
  // The foot with the number is a row as well.
  const size = (): number => room_pt / ((rows.length + 1) * LINE)
  for (const id of givesWay(label)) {
    if (size() >= LEAST_pt) break
    if (!rows.some((row) => row.id === id)) continue
    rows = rows.filter((row) => row.id !== id)
    dropped.push(id)
  }
  if (size() < LEAST_pt) rows = joinedMarks(rows)
  const size_pt = Math.min(MOST_pt, Math.floor(size() * 2) / 2)
  return {
    ...name,
    nameSize_pt,
    size_pt,
    dropped,
    rows: rows.map((row) => ({ ...row, size_pt: rowSize_pt(row, size_pt, width_pt) })),
  }
}

/** Time point and handling in one row, where there is room for only one and neither may go. */
function joinedMarks(
  rows: readonly Omit<LabelRow, 'size_pt'>[],
): readonly Omit<LabelRow, 'size_pt'>[] {
  const marks = rows.find(({ id }) => id === 'marks')
  if (!marks || !rows.some(({ id }) => id === 'point')) return rows
  return rows.flatMap((row) => {
    if (row === marks) return []
    if (row.id !== 'point') return [row]
    return [{ ...row, right: [row.right, marks.left].filter(Boolean).join(' · ') }]
  })
}

/** In the largest type that takes the whole name; shortened only in the smallest. */
function fittedName(label: LabelModel, width_pt: number) {
  const fit = (size_pt: number): FittedName =>
    fitFamilyFirst(label, width_pt / size_pt, textWidth_em)
  const whole = NAME_SIZES_pt.find((size_pt) => !fit(size_pt).shortened)
  const nameSize_pt = whole ?? NAME_SIZES_pt[NAME_SIZES_pt.length - 1] ?? LEAST_pt
  return { name: fit(nameSize_pt), nameSize_pt }
}

/** A row too long for the line gets smaller type, down to the least that is legible; only then is it cut. */
function rowSize_pt(
  { left, right }: Omit<LabelRow, 'size_pt'>,
  most_pt: number,
  width_pt: number,
): number {
  const width_em = textWidth_em(left) + (right ? GAP_em + textWidth_em(right) : 0)
  return Math.max(5, Math.min(most_pt, Math.floor((width_pt / width_em) * 2) / 2))
}

/** @param close_pt width of the label where rows are to be saved by standing side by side, as far as they fit. */
function rowsOf(
  label: LabelModel,
  stock: LabelStock,
  texts: LabelTexts,
  close_pt?: number,
): readonly Omit<LabelRow, 'size_pt'>[] {
  const row = (id: LabelRowId, left: string, right = '', bold = false) => ({
    id,
    left,
    right,
    bold,
  })
  const urgent = label.priority === 'stat' ? [fillText(texts.stat)] : []
  const marks = [...urgent, ...label.handling.map((mark) => texts.marks[mark])].filter(Boolean)
  const collected = fillText(texts.collected, { at: label.collected, initials: label.initials })
  const isSigned = label.transfusion && close_pt !== undefined
  // A small transfusion label has no row to spare: which sample it is and its few marks stand beside the time.
  const isCrowded = isSigned && stock === 'small'
  const mark = [isCrowded ? pointsOf(label, texts) : '', ...marks].filter(Boolean).join(' · ')
  const isBeside = mark !== '' && (isCrowded || fitsBeside(collected, mark, close_pt))
  const { bandNumber, orderNumber, ward } = label
  const order = orderNumber ? fillText(texts.order, { number: orderNumber }) : ''
  return [
    row('who', fillText(texts.born, { date: label.birthDate }), recordText(label, texts), true),
    row('collected', collected, isBeside ? mark : '', isBeside),
    ...(label.timePoints.length > 0 && !isCrowded
      ? [row('point', pointsOf(label, texts), label.bodySite, true)]
      : []),
    ...(marks.length > 0 && !isBeside ? [row('marks', mark, '', true)] : []),
    ...(bandNumber || label.transfusion
      ? [
          row(
            'band',
            fillText(texts.band, { number: bandNumber || fillText(texts.bandBlank) }),
            isSigned ? fillText(texts.signShort) : '',
            true,
          ),
        ]
      : []),
    ...(label.transfusion
      ? [
          row('policy', fillText(texts.policy)),
          ...(isSigned ? [] : [row('sign', fillText(texts.sign))]),
        ]
      : []),
    ...(label.limit ? [row('limit', limitText(label.limit, texts), '', true)] : []),
    row(
      'tube',
      label.fill_mL === undefined ? label.tubeName : `${label.tubeName}, ${label.fill_mL} mL`,
      label.tests.join(', '),
    ),
    ...(label.bodySite && label.timePoints.length === 0
      ? [row('site', label.bodySite, '', true)]
      : []),
    ...(order || ward ? [row('order', order, ward)] : []),
  ]
}

/** A number that says by its letters what it is (`MRN 4471902`) needs no word before it. */
const recordText = ({ recordNumber }: LabelModel, texts: LabelTexts): string =>
  /^\p{L}/u.test(recordNumber) ? recordNumber : fillText(texts.record, { number: recordNumber })

const fitsBeside = (left: string, right: string, width_pt: number | undefined): boolean =>
  width_pt !== undefined &&
  (textWidth_em(left) + GAP_em + textWidth_em(right)) * LEAST_pt <= width_pt

const pointsOf = ({ timePoints, held }: LabelModel, texts: LabelTexts): string =>
  [
    ...timePoints.map((each) => fillText(texts.point, { ...each })),
    ...(held ? [fillText(texts.held)] : []),
  ].join('; ')
