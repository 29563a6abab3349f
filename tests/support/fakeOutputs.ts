import type { OutputDevices } from '../../src/adapters/sound/outputDevices.ts'
import type { Sink } from '../../src/adapters/sound/sink.ts'

/** How a browser behaves that is asked something: rightly, with a no, with nothing at all. */
type Manner = 'right' | 'refuses' | 'hangs'

const inManner = <T>(manner: Manner, value: T): Promise<T> => {
  if (manner === 'hangs') return new Promise(() => undefined)
  return manner === 'refuses'
    ? Promise.reject(new Error('NotAllowedError'))
    : Promise.resolve(value)
}

/** The outputs of a machine, to be plugged in and out. */
export function fakeOutputs(...plugged: string[]) {
  const there = new Set(plugged)
  const listeners: (() => void)[] = []
  const tell = (): void => listeners.forEach((listener) => listener())
  const described = (name: string) => ({
    deviceId: `id of ${name}`,
    kind: 'audiooutput' as const,
    label: name,
  })
  const fake = {
    manner: 'right' as Manner,
    asked: 0,
    devices: {
      enumerateDevices: () => {
        fake.asked += 1
        const outputs = [...there].map(described)
        return inManner(fake.manner, [
          { ...described('default'), deviceId: 'default' },
          { deviceId: 'mic', kind: 'audioinput' as const, label: 'A microphone' },
          ...outputs,
        ])
      },
      addEventListener: (_, listener) => void listeners.push(listener),
    } as OutputDevices,
    plug(name: string): void {
      there.add(name)
      tell()
    },
    unplug(name: string): void {
      there.delete(name)
      tell()
    },
    /** As some browsers do: it is gone, and nobody is told. */
    loseQuietly(name: string): void {
      there.delete(name)
    },
    stir: tell,
  }
  return fake
}

/** The way out of one context; `lies` answers yes and stays where it was. */
export function fakeSink(manner: Manner | 'lies' = 'right') {
  const fake = {
    manner,
    at: '',
    set: [] as string[],
    /** Ends every answer that hangs as a yes. */
    answer: (): void => undefined,
  }
  const sink: Sink = {
    now: () => fake.at,
    set(id) {
      fake.set.push(id)
      if (fake.manner === 'lies') return Promise.resolve()
      if (fake.manner === 'hangs') {
        return new Promise((resolve) => {
          fake.answer = () => {
            fake.at = id
            resolve()
          }
        })
      }
      return inManner(fake.manner, undefined).then(() => {
        fake.at = id
      })
    },
  }
  return Object.assign(fake, { sink })
}
