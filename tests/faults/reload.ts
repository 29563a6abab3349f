import { see, untilShown } from './drive.ts'
import type { Fault } from './fault.ts'
import { alarmOf, confirm, drawTo, goOn, lostFromStore, startDraw } from './trial.ts'

/** What the screen asks for in the invented demonstration, step by step. */
const STEPS = [
  ...['patient confirmed', 'consent given', 'answers checked', 'supplies checked', 'hands ready'],
  ...[
    'left arm chosen',
    'median vein',
    'skin clean',
    'skin dry',
    'band on',
    'needle in',
    'blood flash',
  ],
  ...['next one on', 'band released', 'tube complete', 'mixing done'],
  ...['next one on', 'tube complete', 'mixing done', 'no more tubes'],
  ...['pressure on', 'shield clicked', 'sharps done', 'bleeding stopped', 'bandage on'],
  ...['label matches', 'label matches', 'labels done', 'advice given', 'samples stored'],
] as const
const BAND_ON = STEPS.indexOf('band on') + 1
const BAND_OFF = STEPS.indexOf('band released')

/** The page is loaded anew at every step of a draw; it must come back to that very step. */
export const RELOAD_FAULTS: readonly Fault[] = STEPS.map((phrase, index) => ({
  id: `reloadAtStep${String(index + 1).padStart(2, '0')}`,
  family: 'reload',
  did: `The page is loaded anew where the screen asks for "${phrase}" (real).`,
  run: async (stage) => {
    const trial = await stage.trial()
    await startDraw(trial)
    for (let n = 0; n < index; n++) {
      if (!(await confirm(trial))) throw new Error(`"${STEPS[n] ?? ''}" does not move the screen.`)
    }
    const before = await drawTo(trial, phrase)
    await trial.page.reload()
    const ableFrom_ms = Date.now()
    const seen = await see(trial.page, /^Practice not finished/, ableFrom_ms)
    await goOn(trial)
    const after = await untilShown(trial.page, ({ key }) => key !== '')
    const wrong = after?.title === before.title ? [] : [`it comes back to "${after?.title ?? ''}"`]
    await confirm(trial)
    const isOn = index >= BAND_ON && index < BAND_OFF
    const band = isOn ? await alarmOf(trial, { ableFrom_ms }) : 'not running'
    const lost = await lostFromStore(trial)
    return { seen, band, lost, wrong }
  },
}))
