import { beforeEach, describe, expect, it } from 'vitest'
import { tubesByDraw } from '../../../src/app/bench/tubesByDraw.ts'
import type { BenchRow } from '../../../src/core/bench/benchBoard.ts'
import type { DrawEvent } from '../../../src/core/protocol/events.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { fakeSound } from '../../support/fakeSound.ts'

const MINUTE_ms = 60_000
let rig: AppRig
const rows = (): readonly BenchRow[] => rig.state().bench.rows
const says = (said: Parameters<AppRig['actions']['bench']['byVoice']>[0]) =>
  rig.actions.bench.byVoice(said)

async function passMinutes(minutes: number): Promise<void> {
  for (let i = 0; i < minutes * 4; i++) {
    rig.clock.advance(MINUTE_ms / 4)
    await rig.settle()
  }
}

/** A closed draw of one tube; all of it invented. */
async function drawn(recordNumber: string, test = 'sodium'): Promise<string> {
  const drawId = await rig.begin({ tests: [test], recordNumber })
  await rig.follow('closed')
  await rig.actions.go({ name: 'home' })
  await rig.settle()
  return drawId
}

const entries = async (drawId: string, type: DrawEvent['type']) =>
  (await rig.stored(drawId)).entries.filter(({ event }) => event.type === type)

beforeEach(async () => {
  rig = appRig()
  await rig.app.start()
})

describe('what is said at the bench', () => {
  it('is about nothing where nothing is to be done', async () => {
    for (const said of [
      'spinStarted',
      'spinEnded',
      'separated',
      'stored',
      'bagged',
      'takeBack',
    ] as const) {
      expect(await says(said)).toBe('none')
    }
    const anna = await drawn('MRN-A')
    // It still clots.
    expect(await says('spinStarted')).toBe('none')
    expect(await entries(anna, 'spinStarted')).toEqual([])
  })

  it('takes the tubes of two draws from the spin into the bag, charted as said', async () => {
    const [anna, bert] = [await drawn('MRN-A'), await drawn('MRN-B')]
    await passMinutes(31)
    expect(await says('spinStarted')).toEqual({ done: 2 })
    const [spin] = await entries(anna, 'spinStarted')
    expect(spin?.source).toBe('voice')
    // As the run on the screen has it: 1300 g for 10 min swung out, label of a gel tube, from memory.
    expect(spin?.event).toMatchObject({ g: 1300, spin_min: 10, temperature: 'room' })
    expect(await entries(bert, 'spinStarted')).toHaveLength(1)
    await passMinutes(11)
    expect(await says('spinEnded')).toEqual({ done: 2 })
    expect(await says('separated')).toBe('none')
    expect(await says('stored')).toEqual({ done: 2 })
    expect(rows().map(({ specimen }) => specimen.way.stored?.where)).toEqual(['fridge', 'fridge'])
    expect(await says('bagged')).toEqual({ done: 2 })
    expect(rows().map(({ step }) => step)).toEqual(['courier', 'courier'])
    // Nobody said what stands on the bag.
    expect(rows()[0]?.specimen.way.bagged?.bag).toBe('not named')
  })

  it('takes a tube whose draw was closed a moment ago, which needs no clot, with the others', async () => {
    // NT-proBNP goes into a heparin tube: it may turn as soon as it is drawn.
    await drawn('MRN-A', 'ntProBnp')
    await drawn('MRN-B', 'ntProBnp')
    expect(rows().map(({ specimen }) => specimen.isOpen)).toEqual([false, false])
    expect(await says('spinStarted')).toEqual({ done: 2 })
  })

  it('chooses nothing for a person: not between places, not between runs', async () => {
    await drawn('MRN-A')
    await drawn('MRN-B', 'cbc')
    await passMinutes(31)
    await rig.actions.bench.act(
      { type: 'spinStarted' },
      tubesByDraw(rows().filter(({ step }) => step === 'spin')),
    )
    await rig.actions.bench.act(
      { type: 'spinEnded' },
      tubesByDraw(rows().filter(({ step }) => step === 'spinning')),
    )
    // Serum behind its gel belongs in the fridge, whole blood stays at room temperature: common practice, no source.
    expect(await says('stored')).toBe('several')
    expect(rows().map(({ specimen }) => specimen.way.stored)).toEqual([undefined, undefined])
  })

  it('of two runs the one whose time is over is taken out', async () => {
    const anna = await drawn('MRN-A')
    await passMinutes(31)
    const spun = { type: 'spinStarted', spin_min: 10 } as const
    await rig.actions.bench.act(spun, tubesByDraw(rows()))
    const bert = await drawn('MRN-B')
    await passMinutes(6)
    const ofBert = rows().filter(({ specimen }) => specimen.drawId === bert)
    await rig.actions.bench.act(spun, tubesByDraw(ofBert))
    await passMinutes(6)
    expect(await says('spinEnded')).toEqual({ done: 1 })
    expect(await entries(anna, 'spinEnded')).toHaveLength(1)
    expect(await entries(bert, 'spinEnded')).toEqual([])
  })

  it('said twice in one moment is done once', async () => {
    const anna = await drawn('MRN-A')
    await passMinutes(31)
    const answers = await Promise.all([says('spinStarted'), says('spinStarted')])
    expect(answers).toEqual([{ done: 1 }, 'none'])
    expect(await entries(anna, 'spinStarted')).toHaveLength(1)
  })

  it('knows what another page did meanwhile', async () => {
    const anna = await drawn('MRN-A')
    await passMinutes(31)
    const other = appRig({ ...rig.deps, sound: fakeSound() }, rig.clock)
    await other.app.start()
    await other.actions.bench.byVoice('spinStarted')
    await other.actions.bench.byVoice('spinEnded')
    expect(await says('spinStarted')).toBe('none')
    expect(await entries(anna, 'spinStarted')).toHaveLength(1)
  })

  it('takes back the last act, but not one of long ago', async () => {
    const anna = await drawn('MRN-A')
    await passMinutes(31)
    await says('spinStarted')
    expect(await says('takeBack')).toEqual({ done: 1 })
    expect(rows().map(({ step }) => step)).toEqual(['spin'])
    expect(await entries(anna, 'entryUndone')).toHaveLength(1)
    await says('spinStarted')
    await passMinutes(11)
    expect(await says('takeBack')).toBe('none')
    expect(rows().map(({ step }) => step)).toEqual(['spinning'])
  })

  it('leaves the tubes of a draw alone that is not closed', async () => {
    const open = await rig.begin({ tests: ['cbc'], recordNumber: 'MRN-O' })
    await rig.follow('labels')
    await rig.actions.go({ name: 'home' })
    await rig.settle()
    expect(rows().map(({ step }) => step)).toEqual(['store'])
    expect(await says('stored')).toBe('none')
    expect(await entries(open, 'stored')).toEqual([])
  })

  it('knows of nothing while the records are locked', async () => {
    await drawn('MRN-A')
    await passMinutes(31)
    await rig.actions.setPin('135790')
    rig.actions.keptRecovery()
    rig.actions.lockNow()
    await rig.settle()
    expect(await says('spinStarted')).toBe('none')
  })
})
