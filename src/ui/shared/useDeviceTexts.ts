import type { DeviceTexts } from '../../app/site/deviceTexts.ts'
import { useServices } from './appContext.tsx'

/** The texts about the device itself. */
export function useDeviceTexts(): DeviceTexts {
  return useServices().site.texts.device
}
