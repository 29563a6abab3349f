import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import type { ChoosingEar, EarChoice, Earpiece, EarState } from '../../ports/earpiece.ts'
import { within, wakeIn } from '../../ports/patience.ts'
import { outputsOf, sameOutput, type OutputDevices } from './outputDevices.ts'
import type { Sink } from './sink.ts'

export interface EarpieceDeps {
  readonly clock: Clock
  /** `undefined` in a browser, or on a page, that tells nothing of devices. */
  readonly devices: OutputDevices | undefined
  /** The sink of the context that sounds now play in, another one after each change; `undefined` where it has none. */
  readonly sink: () => Sink | undefined
  /** The way out cannot be changed back: everything begins anew on the default output. */
  readonly beginAnew: () => void
  /** No word may go on being heard at this moment. */
  readonly onUnsure: () => void
}

/** Longer than this no answer of a browser is waited for: what is not known to be in the ear is not spoken. */
export const EAR_PATIENCE_ms = 2000
/** Some browsers never tell that an output came or went. */
export const EAR_LOOK_ms = 5000

/** The earpiece of a player of sounds. */
export interface EarRoute extends Earpiece {
  /** A word said now is heard where it may be. */
  maySpeak(): boolean
}

const late = (): Error => new Error('The browser does not answer.')
const LOUDSPEAKER: EarChoice = { device: undefined, speakWithout: false }

/** Keeps sound in the chosen ear, and knows at any moment whether it is. */
export function createEarpiece(deps: EarpieceDeps): EarRoute {
  const { clock, devices } = deps
  const states = createEmitter<EarState>()
  let choice = LOUDSPEAKER
  let state: EarState = 'loudspeaker'
  /** The sink that was sent to the ear, and which output that was. */
  let inEar: { readonly sink: Sink; readonly id: string } | undefined
  let looks = 0
  let cancel: (() => void) | undefined

  const inTime = <T>(work: Promise<T>): Promise<T> => within(clock, EAR_PATIENCE_ms, work, late)

  function tell(next: EarState): void {
    if (next === state) return
    const wasThere = state === 'there'
    state = next
    if (wasThere) deps.onUnsure()
    states.emit(next)
  }

  const isInEar = (id = inEar?.id): boolean => {
    const sink = deps.sink()
    return inEar !== undefined && id === inEar.id && sink === inEar.sink && sink.now() === id
  }

  /** Tones must be heard: where they cannot be sent back to the default output, that is made anew. */
  async function letGo(): Promise<void> {
    inEar = undefined
    const sink = deps.sink()
    if (!sink || sink.now() === '') return
    try {
      await inTime(sink.set(''))
    } catch {
      if (!inEar) deps.beginAnew()
    }
  }

  async function look(): Promise<void> {
    const mine = ++looks
    const isOver = (): boolean => mine !== looks
    cancel?.()
    const { device } = choice
    if (!device) {
      tell('loudspeaker')
      return letGo()
    }
    cancel = wakeIn(clock, EAR_LOOK_ms, () => void look())
    if (choosing() === 'none' || !devices) return tell('unable')
    try {
      const outputs = outputsOf(await inTime(devices.enumerateDevices()))
      if (isOver()) return
      const found = sameOutput(outputs, device)
      if (!found) {
        tell('gone')
        return await letGo()
      }
      if (!isInEar(found.id)) await send(found.id, isOver)
      if (!isOver()) tell(isInEar(found.id) ? 'there' : 'refused')
    } catch {
      if (isOver()) return
      tell('refused')
      await letGo()
    }
  }

  async function send(id: string, isOver: () => boolean): Promise<void> {
    const sink = deps.sink()
    if (!sink) return
    if (state !== 'refused') tell('finding')
    const sent = sink.set(id)
    // Done long after it was given up, it would keep sound in an ear that nobody wants any more.
    sent.then(
      () => {
        if (isOver()) void look()
      },
      () => undefined,
    )
    await inTime(sent)
    // What it says is not enough: some answer yes and stay where they were.
    if (!isOver()) inEar = { sink, id }
  }

  /** Another context may have taken the place of the one that was sent to the ear, and nobody told. */
  function stateNow(): EarState {
    if (state === 'there' && !isInEar()) {
      tell('finding')
      void look()
    }
    return state
  }

  function choosing(): ChoosingEar {
    if (!devices || !deps.sink()) return 'none'
    return devices.selectAudioOutput ? 'asked' : 'list'
  }

  devices?.addEventListener('devicechange', () => {
    if (!choice.device) return
    if (state === 'there') tell('finding')
    void look()
  })

  return {
    get choosing() {
      return choosing()
    },
    list: async () => {
      if (!devices) return []
      return inTime(devices.enumerateDevices()).then(outputsOf, () => [])
    },
    ask: async () => {
      const chosen = await devices?.selectAudioOutput?.().catch(() => undefined)
      return chosen && outputsOf([{ ...toPlain(chosen), kind: 'audiooutput' }])[0]
    },
    use(next) {
      const isSameDevice = next.device?.id === choice.device?.id
      const isSame = isSameDevice && next.speakWithout === choice.speakWithout
      choice = next
      if (isSame) return
      // What is said on goes where it was meant to go no longer.
      if (next.device && !isSameDevice) tell('finding')
      void look()
    },
    state: stateNow,
    onState: states.observe,
    maySpeak() {
      const now = stateNow()
      if (!choice.device || now === 'there') return true
      return choice.speakWithout && now !== 'finding'
    },
  }
}

const toPlain = ({ deviceId, label }: { readonly deviceId: string; readonly label: string }) => ({
  deviceId,
  label,
})
