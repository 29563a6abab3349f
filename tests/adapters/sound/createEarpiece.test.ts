import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import {
  createEarpiece,
  EAR_LOOK_ms,
  EAR_PATIENCE_ms,
} from '../../../src/adapters/sound/createEarpiece.ts'
import type { OutputDevices } from '../../../src/adapters/sound/outputDevices.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import type { EarState } from '../../../src/ports/earpiece.ts'
import { fakeOutputs, fakeSink } from '../../support/fakeOutputs.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms))
const EAR = { id: 'id of Ear', name: 'Ear' }
const QUIET = { device: EAR, speakWithout: false }
const NONE = { device: undefined, speakWithout: false }

function rig(outputs = fakeOutputs('Ear', 'Speakers'), manner?: Parameters<typeof fakeSink>[0]) {
  let sink: ReturnType<typeof fakeSink> | undefined = fakeSink(manner)
  const states: EarState[] = []
  const log: string[] = []
  const earpiece = createEarpiece({
    clock: createSystemClock('test'),
    devices: outputs.devices,
    sink: () => sink?.sink,
    beginAnew: () => {
      log.push('anew')
      sink = fakeSink()
    },
    onUnsure: () => log.push('hushed'),
  })
  earpiece.onState((state) => states.push(state))
  return {
    earpiece,
    outputs,
    states,
    log,
    sink: () => sink!,
    setSink: (next: typeof sink) => void (sink = next),
  }
}

describe('an earpiece', () => {
  it('is none at first: everything is spoken, and nobody is asked for devices', async () => {
    const { earpiece, outputs, sink } = rig()
    earpiece.use(NONE)
    await wait(EAR_LOOK_ms * 3)
    expect(earpiece.state()).toBe('loudspeaker')
    expect(earpiece.maySpeak()).toBe(true)
    expect([outputs.asked, sink().set]).toEqual([0, []])
  })

  it('lists what stays what it is, without the machine’s own choice and without microphones', async () => {
    const { earpiece } = rig()
    expect(await earpiece.list()).toEqual([EAR, { id: 'id of Speakers', name: 'Speakers' }])
    expect(earpiece.choosing).toBe('list')
  })

  it('is spoken to once sound is known to go there, and not a moment earlier', async () => {
    const { earpiece, sink, states } = rig()
    earpiece.use(QUIET)
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    expect(sink().at).toBe(EAR.id)
    expect(states).toEqual(['finding', 'there'])
    expect(earpiece.maySpeak()).toBe(true)
  })

  it('that is unplugged ends what is being said at once; tones go back to the default output', async () => {
    const { earpiece, outputs, sink, log } = rig()
    earpiece.use(QUIET)
    await wait(1)
    outputs.unplug('Ear')
    expect(log).toEqual(['hushed'])
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    expect(earpiece.state()).toBe('gone')
    expect(sink().at).toBe('')
    expect(earpiece.maySpeak()).toBe(false)
  })

  it('is spoken to again as soon as it is back', async () => {
    const { earpiece, outputs, sink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    outputs.unplug('Ear')
    await wait(1)
    outputs.plug('Ear')
    await wait(1)
    expect([earpiece.state(), sink().at]).toEqual(['there', EAR.id])
    expect(earpiece.maySpeak()).toBe(true)
  })

  it('that goes without a word is missed at the next look', async () => {
    const { earpiece, outputs } = rig()
    earpiece.use(QUIET)
    await wait(1)
    outputs.loseQuietly('Ear')
    await wait(EAR_LOOK_ms)
    expect(earpiece.state()).toBe('gone')
  })

  it('stays where it is while other devices come and go', async () => {
    const { earpiece, outputs, sink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    outputs.plug('Headset of somebody else')
    await wait(1)
    expect(earpiece.state()).toBe('there')
    expect(sink().set).toEqual([EAR.id])
  })

  it('is known by its name where the browser gave it another id, unless two are named so', async () => {
    const { earpiece } = rig()
    earpiece.use({ device: { id: 'of yesterday', name: 'Ear' }, speakWithout: false })
    await wait(1)
    expect(earpiece.state()).toBe('there')
    const twins = rig(fakeOutputs())
    twins.outputs.devices.enumerateDevices = () =>
      Promise.resolve(
        ['a', 'b'].map((deviceId) => ({ deviceId, kind: 'audiooutput' as const, label: 'Ear' })),
      )
    twins.earpiece.use({ device: { id: 'of yesterday', name: 'Ear' }, speakWithout: false })
    await wait(1)
    expect(twins.earpiece.state()).toBe('gone')
  })

  it('may be spoken for from the loudspeaker where a person says so, but never while nobody knows', async () => {
    const { earpiece, outputs } = rig()
    earpiece.use({ device: EAR, speakWithout: true })
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    outputs.unplug('Ear')
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['gone', true])
    earpiece.use(QUIET)
    await wait(1)
    expect(earpiece.maySpeak()).toBe(false)
  })

  it('changed for another one is that one: no word is said in the first any more', async () => {
    const { earpiece, sink, log } = rig()
    earpiece.use({ device: { id: 'id of Speakers', name: 'Speakers' }, speakWithout: false })
    await wait(1)
    earpiece.use(QUIET)
    expect([earpiece.maySpeak(), log]).toEqual([false, ['hushed']])
    await wait(1)
    expect([earpiece.state(), sink().at]).toEqual(['there', EAR.id])
  })

  it('given up goes back to the default output', async () => {
    const { earpiece, sink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    earpiece.use(NONE)
    await wait(1)
    expect([earpiece.state(), sink().at, earpiece.maySpeak()]).toEqual(['loudspeaker', '', true])
  })
})

describe('a browser', () => {
  it('that answers yes and stays at the loudspeaker is not believed', async () => {
    const { earpiece, sink } = rig(undefined, 'lies')
    earpiece.use(QUIET)
    await wait(1)
    expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['refused', false])
    sink().manner = 'right'
    await wait(EAR_LOOK_ms)
    expect(earpiece.state()).toBe('there')
  })

  it('that refuses is told of', async () => {
    const { earpiece } = rig(undefined, 'refuses')
    earpiece.use(QUIET)
    await wait(1)
    expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['refused', false])
  })

  it('that never answers is waited for only so long, and nothing is spoken meanwhile', async () => {
    const { earpiece } = rig(undefined, 'hangs')
    earpiece.use(QUIET)
    await wait(EAR_PATIENCE_ms - 10)
    expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['finding', false])
    await wait(20)
    expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['refused', false])
  })

  it('that answers long after the ear was given up is called back: no alarm stays in an ear that nobody wears', async () => {
    const { earpiece, sink } = rig(undefined, 'hangs')
    earpiece.use(QUIET)
    await wait(EAR_PATIENCE_ms + 10)
    earpiece.use(NONE)
    await wait(1)
    sink().manner = 'right'
    sink().answer()
    await wait(1)
    expect([earpiece.state(), sink().at]).toEqual(['loudspeaker', ''])
  })

  it.each(['refuses', 'hangs'] as const)(
    'that %s to say which devices there are is not spoken to',
    async (manner) => {
      const { earpiece, outputs } = rig()
      earpiece.use(QUIET)
      await wait(1)
      outputs.manner = manner
      outputs.stir()
      await wait(EAR_PATIENCE_ms + 10)
      expect([earpiece.state(), earpiece.maySpeak()]).toEqual(['refused', false])
      expect(await raced(earpiece.list())).toEqual([])
    },
  )

  it.each(['refuses', 'hangs'] as const)(
    'that %s to send tones back to the loudspeaker begins anew there',
    async (manner) => {
      const { earpiece, outputs, sink, log } = rig()
      earpiece.use(QUIET)
      await wait(1)
      sink().manner = manner
      outputs.unplug('Ear')
      await wait(EAR_PATIENCE_ms + 10)
      expect(log).toEqual(['hushed', 'anew'])
      expect(sink().at).toBe('')
    },
  )

  it('that makes another context sends that one to the ear before a word is said in it', async () => {
    const { earpiece, setSink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    const other = fakeSink()
    setSink(other)
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    expect([other.at, earpiece.maySpeak()]).toEqual([EAR.id, true])
  })

  it('that makes another context is found out by whoever asks how it stands', async () => {
    const { earpiece, setSink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    setSink(fakeSink('hangs'))
    expect(earpiece.state()).toBe('finding')
    await wait(EAR_PATIENCE_ms + 10)
    expect(earpiece.state()).toBe('refused')
  })

  it('that moves the sound elsewhere by itself is noticed at the next word', async () => {
    const { earpiece, sink } = rig()
    earpiece.use(QUIET)
    await wait(1)
    sink().at = ''
    expect(earpiece.maySpeak()).toBe(false)
    await wait(1)
    expect([sink().at, earpiece.maySpeak()]).toEqual([EAR.id, true])
  })

  it('that cannot choose says so, and speaks only where a person wants it', async () => {
    const { earpiece, setSink } = rig()
    setSink(undefined)
    earpiece.use(QUIET)
    await wait(1)
    expect([earpiece.choosing, earpiece.state(), earpiece.maySpeak()]).toEqual([
      'none',
      'unable',
      false,
    ])
    earpiece.use({ ...QUIET, speakWithout: true })
    await wait(1)
    expect(earpiece.maySpeak()).toBe(true)
  })

  it('that asks by itself hands over what was chosen there, or nothing', async () => {
    const outputs = fakeOutputs('Ear')
    const selectAudioOutput = vi
      .fn<NonNullable<OutputDevices['selectAudioOutput']>>()
      .mockResolvedValueOnce({ deviceId: EAR.id, kind: 'audiooutput', label: 'Ear' })
      .mockRejectedValueOnce(new Error('NotAllowedError'))
    outputs.devices.selectAudioOutput = selectAudioOutput
    const { earpiece } = rig(outputs)
    expect(earpiece.choosing).toBe('asked')
    expect(await earpiece.ask()).toEqual(EAR)
    expect(await earpiece.ask()).toBeUndefined()
  })
})

/** What it comes to once patience has run out. */
async function raced<T>(work: Promise<T>): Promise<T> {
  await wait(EAR_PATIENCE_ms + 10)
  return work
}
