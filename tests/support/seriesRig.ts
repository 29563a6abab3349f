import { recordNote } from '../../src/core/record/recordNote.ts'
import type { SeriesSitting } from '../../src/core/record/seriesRecord.ts'
import { texts } from '../../src/data/en/texts.ts'
import { appRig, type AppRig } from './appRig.ts'

/** The order of a glucose tolerance test. */
const OGTT = { tests: ['ogtt75'], fasted_h: '10' }

export async function startedRig(...parts: Parameters<typeof appRig>): Promise<AppRig> {
  const rig = appRig(...parts)
  await rig.app.start()
  return rig
}

/** Draws the first sitting to its close, comes back to the first screen, and answers its id. */
export async function drawFirst(rig: AppRig, draft: object = {}): Promise<string> {
  const drawId = await rig.begin({ ...OGTT, ...draft })
  await rig.follow('closed')
  await rig.settle()
  await rig.actions.go({ name: 'home' })
  return drawId
}

/** The chart note of a draw as it is stored. */
export const noteOf = async (rig: AppRig, drawId: string): Promise<string> =>
  recordNote(
    await rig.stored(drawId),
    texts,
    (code) => code,
    () => false,
  ).text

/** Id of the draw before the person. */
export const drawHere = (rig: AppRig): string => {
  const { screen } = rig.state()
  if (screen.name !== 'draw') throw new Error(`on ${screen.name}: ${rig.state().trouble ?? ''}`)
  return screen.drawId
}

/** A sitting as the first screen shows it. */
export const sittingOf = (rig: AppRig, id: string, key: string): SeriesSitting | undefined =>
  rig
    .state()
    .series.find((series) => series.id === id)
    ?.sittings.find((each) => each.key === key)
