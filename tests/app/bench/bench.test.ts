import { beforeEach, describe, expect, it } from 'vitest'
import type { BenchRow } from '../../../src/core/bench/benchBoard.ts'
import { tubesByDraw } from '../../../src/app/bench/tubesByDraw.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { fakeSound, type FakeSound } from '../../support/fakeSound.ts'

const MINUTE_s = 60
let rig: AppRig
const sound = (): FakeSound => rig.deps.sound as FakeSound
const rows = (): readonly BenchRow[] => rig.state().bench.rows
const spoken = (): readonly string[] => sound().spoken.filter((key) => key.startsWith('bench.'))

/** Lets minutes pass in long steps: nothing of the bench is due to the second. */
async function passMinutes(minutes: number): Promise<void> {
  for (let i = 0; i < minutes * 2; i++) {
    rig.clock.advance((MINUTE_s * 1000) / 2)
    await rig.settle()
  }
}

/** A closed draw of one serum tube; all of it invented. */
async function drawn(recordNumber = 'MRN-A'): Promise<string> {
  const drawId = await rig.begin({ tests: ['sodium'], recordNumber })
  await rig.follow('closed')
  await rig.actions.go({ name: 'home' })
  await rig.settle()
  return drawId
}
const events = async (drawId: string): Promise<readonly string[]> =>
  (await rig.stored(drawId)).entries.map(({ event }) => event.type)
const count = async (drawId: string, type: string): Promise<number> =>
  (await events(drawId)).filter((each) => each === type).length

/** The first screen does not wait for the bench: it comes in behind. */
async function opened(page: AppRig): Promise<void> {
  await page.app.start()
  for (let i = 0; i < 30; i++) await page.settle()
}

beforeEach(async () => {
  rig = appRig()
  await rig.app.start()
})

describe('the bench', () => {
  it('has the tubes of every draw of the day, also after the next patient has sat down', async () => {
    await drawn('MRN-A')
    await drawn('MRN-B')
    await passMinutes(28)
    await rig.begin({ recordNumber: 'MRN-C' })
    expect(rows().map(({ step }) => step)).toEqual(['clot', 'clot'])
    await passMinutes(3)
    expect(rows().map(({ step }) => step)).toEqual(['spin', 'spin'])
  })

  it('one act on tubes of two draws stands in the day first and in both, under one id', async () => {
    const [anna, bert] = [await drawn('MRN-A'), await drawn('MRN-B')]
    await passMinutes(31)
    await rig.actions.bench.act({ type: 'spinStarted', g: 1300 }, tubesByDraw(rows()))
    const ids = await Promise.all(
      [anna, bert].map(async (drawId) =>
        (await rig.stored(drawId)).entries.flatMap(({ event }) =>
          event.type === 'spinStarted' ? [event.act] : [],
        ),
      ),
    )
    expect(ids[0]).toHaveLength(1)
    expect(ids[0]).toEqual(ids[1])
    expect(rows().map(({ step }) => step)).toEqual(['spinning', 'spinning'])
    expect(rig.state().bench.acts[0]).toMatchObject({ id: ids[0]?.[0], type: 'spinStarted' })
  })

  it('the same button twice in one moment acts once', async () => {
    const anna = await drawn()
    await passMinutes(31)
    const tubes = tubesByDraw(rows())
    await Promise.all([
      rig.actions.bench.act({ type: 'spinStarted' }, tubes),
      rig.actions.bench.act({ type: 'spinStarted' }, tubes),
    ])
    expect(await count(anna, 'spinStarted')).toBe(1)
  })

  it('what was said in error is taken back in every draw, and stays readable', async () => {
    const [anna, bert] = [await drawn('MRN-A'), await drawn('MRN-B')]
    await rig.actions.bench.act({ type: 'bagged', bag: 'B1' }, tubesByDraw(rows()))
    const [act] = rig.state().bench.acts
    if (!act) throw new Error('Nothing was done.')
    await rig.actions.bench.takeBack(act)
    for (const drawId of [anna, bert]) {
      expect(await count(drawId, 'bagged')).toBe(1)
      expect((await events(drawId)).at(-1)).toBe('entryUndone')
    }
    expect(rows().every(({ specimen }) => specimen.way.bagged === undefined)).toBe(true)
    expect(rig.state().bench.acts).toEqual([])
  })

  it('is empty while the records are locked, and what is due is told all the same', async () => {
    await drawn()
    await rig.actions.setPin('135790')
    rig.actions.keptRecovery()
    rig.actions.lockNow()
    await rig.settle()
    expect(rig.state().lock.state).toBe('locked')
    expect(rows()).toEqual([])
    await passMinutes(33)
    expect(rows()).toEqual([])
    expect(spoken()).toEqual(['bench.ready'])
  })
})

describe('another page of the app', () => {
  it('that spun the tubes already: nothing is written twice, and the board shows it', async () => {
    const anna = await drawn()
    await passMinutes(31)
    const other = appRig({ ...rig.deps, sound: fakeSound() }, rig.clock)
    await opened(other)
    await other.actions.bench.act({ type: 'spinStarted' }, tubesByDraw(other.state().bench.rows))
    // Here the tube still stands to be spun.
    expect(rows().map(({ step }) => step)).toEqual(['spin'])
    await rig.actions.bench.act({ type: 'spinStarted' }, tubesByDraw(rows()))
    expect(await count(anna, 'spinStarted')).toBe(1)
    expect(rows().map(({ step }) => step)).toEqual(['spinning'])
  })
})

describe('a page that went down between the day and the draws', () => {
  it('the act is charted at the next start with its own time, once', async () => {
    const [anna, bert] = [await drawn('MRN-A'), await drawn('MRN-B')]
    await passMinutes(31)
    const { logStore } = rig.deps
    let isDown = false
    const dying = appRig(
      {
        ...rig.deps,
        sound: fakeSound(),
        logStore: {
          ...logStore,
          append: (drawId, entries) =>
            isDown && drawId === bert
              ? new Promise(() => undefined)
              : logStore.append(drawId, entries),
        },
      },
      rig.clock,
    )
    await opened(dying)
    isDown = true
    void dying.actions.bench.act({ type: 'spinStarted' }, tubesByDraw(dying.state().bench.rows))
    for (let i = 0; i < 20; i++) await rig.settle()
    const done_ms = rig.clock.read().wall_ms
    expect([await count(anna, 'spinStarted'), await count(bert, 'spinStarted')]).toContain(0)
    rig.clock.advance(10 * 60_000)
    const next = appRig({ ...rig.deps, sound: fakeSound() }, rig.clock)
    await opened(next)
    for (const drawId of [anna, bert]) expect(await count(drawId, 'spinStarted')).toBe(1)
    const started = next
      .state()
      .bench.rows.map(({ specimen }) => specimen.way.spins[0]?.started.at_ms ?? 0)
    expect(started.every((at_ms) => Math.abs(at_ms - done_ms) < 2000)).toBe(true)
    const again = appRig({ ...rig.deps, sound: fakeSound() }, rig.clock)
    await opened(again)
    for (const drawId of [anna, bert]) expect(await count(drawId, 'spinStarted')).toBe(1)
  })
})

describe('what is due is called out', () => {
  it('when tubes may be spun, once, and when the spin is done', async () => {
    await drawn()
    await passMinutes(29)
    expect(spoken()).toEqual([])
    await passMinutes(4)
    expect(spoken()).toEqual(['bench.ready'])
    await rig.actions.bench.act({ type: 'spinStarted', spin_min: 10 }, tubesByDraw(rows()))
    await passMinutes(11)
    expect(spoken()).toEqual(['bench.ready', 'bench.spinDone'])
    await passMinutes(5)
    expect(spoken()).toEqual(['bench.ready', 'bench.spinDone'])
  })
})
