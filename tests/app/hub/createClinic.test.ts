import { describe, expect, it, vi } from 'vitest'
import { createMemoryClinic } from '../../../src/adapters/hub/memory/memoryClinic.ts'
import { createMemoryDayStore } from '../../../src/adapters/storage/dayStore.ts'
import { createMemoryHubStore } from '../../../src/adapters/storage/hubStore.ts'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import type { StoredDraw } from '../../../src/ports/logStore.ts'
import { clinicDevice } from '../../support/clinicRig.ts'
import { joinClock, SOON } from '../../support/joinRig.ts'
import { logOf, SAMPLE_DRAW_ID, sha256, straightLines } from '../../support/sampleLog.ts'

/** A device with one closed draw, whose disk tells what is on it when the test says so. */
async function slowDisk(row: (known: StoredDraw) => StoredDraw = (known) => known) {
  const logStore = createMemoryLogStore(sha256)
  const { entries } = logOf(straightLines(), Date.now() - 3_600_000)
  await logStore.append(SAMPLE_DRAW_ID, entries)
  let answer = (): void => undefined
  const asked = new Promise<void>((resolve) => (answer = resolve))
  const server = createMemoryClinic(joinClock)
  const slow = { ...logStore, list: () => asked.then(async () => (await logStore.list()).map(row)) }
  const { clinic, hub } = clinicDevice('a', server.join('a'), joinClock, undefined, {
    logStore: slow,
    dayStore: createMemoryDayStore(sha256),
    hubStore: createMemoryHubStore(),
  })
  await clinic.start()
  await vi.waitFor(() => expect(hub.state().kind).toBe('connected'), SOON)
  return { clinic, hub, answer, entries }
}

describe('the clinic as a person reads it', () => {
  it('never says that everything is there before it has counted what is here', async () => {
    const { clinic, hub, answer, entries } = await slowDisk()
    expect(clinic.view()?.link).toBe('connecting')
    const said: string[] = []
    clinic.onChange(() => {
      const { link, waiting_n } = clinic.view() ?? {}
      said.push(`${link} ${waiting_n}`)
    })
    answer()
    await vi.waitFor(() => expect(said.at(-1)).toBe('connected 0'), SOON)
    expect(said.filter((each) => each.startsWith('connected'))[0]).toBe(
      `connected ${entries.length}`,
    )
    await hub.stop()
  })

  it('never says so either of a log of which it does not know how long it is', async () => {
    // As older versions of the app have written the rows.
    const { clinic, hub, answer } = await slowDisk(({ entries: _, ...row }) => row)
    const said: string[] = []
    clinic.onChange(() => void said.push(`${clinic.view()?.link} ${clinic.view()?.waiting_n}`))
    answer()
    await vi.waitFor(() => expect(said.at(-1)).toBe('connected 0'), SOON)
    expect(said.filter((each) => each.startsWith('connected'))[0]).toBe('connected 1')
    await hub.stop()
  })
})
