import type { OutputDevice } from '../../ports/earpiece.ts'

type Described = Pick<MediaDeviceInfo, 'deviceId' | 'kind' | 'label'>

/** `navigator.mediaDevices` as far as it is needed here. */
export interface OutputDevices {
  enumerateDevices(): Promise<readonly Described[]>
  /** Missing in a browser that shows a list of its own nowhere. */
  selectAudioOutput?: () => Promise<Described>
  addEventListener(type: 'devicechange', listener: () => void): void
}

/** Names under which a browser follows the machine's own choice: what is one ear now is the loudspeaker next. */
const FOLLOWS: ReadonlySet<string> = new Set(['', 'default', 'communications'])

/** The outputs that stay what they are. */
export function outputsOf(devices: readonly Described[]): readonly OutputDevice[] {
  return devices
    .filter(({ kind, deviceId }) => kind === 'audiooutput' && !FOLLOWS.has(deviceId))
    .map(({ deviceId, label }) => ({ id: deviceId, name: label }))
}

/**
 * The output that was chosen. A browser gives new ids when its data was cleared or the earpiece was paired anew; then
 * the one output of that name is it.
 */
export function sameOutput(
  outputs: readonly OutputDevice[],
  chosen: OutputDevice,
): OutputDevice | undefined {
  const byId = outputs.find(({ id }) => id === chosen.id)
  if (byId) return byId
  const named = outputs.filter(({ name }) => name !== '' && name === chosen.name)
  return named.length === 1 ? named[0] : undefined
}
