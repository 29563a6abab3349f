import type { StepId } from '../../src/core/protocol/steps.ts'

/** Where each step stands in the picture: a column of the draw, then its place from the top. */
export const COLUMNS: readonly { readonly title: string; readonly steps: readonly StepId[] }[] = [
  { title: 'Before the needle', steps: ['wristband', 'identity', 'consent', 'preparation', 'decision', 'latex', 'thinner', 'fainted', 'supplies', 'hands', 'find', 'site', 'vein', 'found', 'set', 'cleanse', 'dry', 'band', 'needle'] },
  { title: 'Blood', steps: ['flash', 'tube', 'release', 'filling', 'mix', 'lastTube', 'takeOff', 'needleOut'] },
  { title: 'After the needle', steps: ['pressure', 'shield', 'sharps', 'handling', 'bleeding', 'bandage', 'handled', 'again', 'colleague'] },
  { title: 'Specimens and the end', steps: ['unlabelled', 'labels', 'aftercare', 'rack', 'end', 'spin', 'courier', 'finished'] },
  { title: 'Finger or heel', steps: ['side', 'warm', 'lance', 'wipe', 'drops', 'press', 'lancetAway', 'provider'] },
  { title: 'Syringe', steps: ['pull', 'transfer', 'vacuum'] },
  { title: 'Newborn card', steps: ['born', 'feeding', 'transfused', 'card', 'circle', 'cardOff', 'cardDry'] },
] // prettier-ignore

export const BOX = {
  width: 200,
  height: 34,
  rowGap: 26,
  columnGap: 110,
  left: 70,
  top: 96,
} as const

export interface Place {
  readonly column: number
  readonly row: number
  readonly x: number
  readonly y: number
}

export function places(): ReadonlyMap<string, Place> {
  return new Map(
    COLUMNS.flatMap(({ steps }, column) =>
      steps.map((id, row): [string, Place] => [
        id,
        {
          column,
          row,
          x: BOX.left + column * (BOX.width + BOX.columnGap),
          y: BOX.top + row * (BOX.height + BOX.rowGap),
        },
      ]),
    ),
  )
}
