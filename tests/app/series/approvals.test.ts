import { describe, expect, it } from 'vitest'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import type { AppRig } from '../../support/appRig.ts'
import { noteOf, startedRig } from '../../support/seriesRig.ts'

/** A child of 3 kg, from whom so little may be taken that a series is over the limit. */
const CHILD = { birthDate: '2026-05-20', weight_kg: '3', tests: ['cultureSets2', 'cbc', 'bmp'] }
const BY = { about: 'volumeLimit', by: 'Dr. Pat Placeholder', reason: 'no other way' } as const

const openings = async (rig: AppRig): Promise<readonly DrawOpened[]> => {
  const draws = await rig.deps.logStore.list()
  const logs = await Promise.all(draws.map(({ drawId }) => rig.stored(drawId)))
  return logs.flatMap(({ entries }) =>
    entries.flatMap(({ event }) => (event.type === 'drawOpened' ? [event] : [])),
  )
}

describe('what a provider decided about a plan', () => {
  it('opens nothing until it is named, and stands in the log with name, reason and time', async () => {
    const rig = await startedRig()
    await rig.plan(CHILD)
    expect(rig.state().plan?.problems.map(({ code }) => code)).toContain('overLimit')
    await rig.actions.openDraw()
    expect(rig.state().screen.name).toBe('plan')
    expect(rig.actions.approveStop({ ...BY, by: '  ' })).toBeDefined()
    await rig.actions.openDraw()
    expect(await openings(rig)).toEqual([])

    expect(rig.actions.approveStop(BY)).toBeUndefined()
    const at_ms = rig.clock.read().wall_ms
    await rig.actions.openDraw()
    expect(rig.state().screen.name).toBe('draw')
    const [opened] = await openings(rig)
    expect(opened?.approvals).toEqual([{ ...BY, at_ms }])
    const text = await noteOf(rig, opened?.drawId ?? '')
    expect(text).toContain('Dr. Pat Placeholder')
    expect(text).toContain('no other way')
  })

  it('is not taken over into the draw of the next patient', async () => {
    const rig = await startedRig()
    await rig.plan(CHILD)
    rig.actions.approveStop(BY)
    await rig.actions.openDraw()
    await rig.close()
    await rig.actions.go({ name: 'home' })
    const next = await rig.begin({ fullName: 'Bert Second', recordNumber: 'MRN-B' })
    const opened = (await openings(rig)).find(({ drawId }) => drawId === next)
    expect(opened).not.toHaveProperty('approvals')
  })

  it('goes with the plan: a plan made anew has to be decided anew', async () => {
    const rig = await startedRig()
    await rig.plan(CHILD)
    rig.actions.approveStop(BY)
    rig.actions.makePlan()
    expect(rig.state().approvals).toEqual([])
    await rig.actions.openDraw()
    expect(await openings(rig)).toEqual([])
  })
})
