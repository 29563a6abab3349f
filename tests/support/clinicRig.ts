import { createMemoryHubStore } from '../../src/adapters/storage/hubStore.ts'
import { createMemoryDayStore } from '../../src/adapters/storage/dayStore.ts'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { createClinic } from '../../src/app/hub/createClinic.ts'
import type { TrustedDevices } from '../../src/app/hub/envelopes.ts'
import type { Clock } from '../../src/ports/clock.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { quickSealer, quickSign, quickVerify, trusting } from './clinicTrust.ts'
import { sha256 } from './sampleLog.ts'

/** A device of a clinic, on stores of its own that outlive its page. */
export function clinicDevice(
  device: string,
  hub: Hub,
  clock: Clock,
  trust: TrustedDevices = trusting(['a', 'b', 'c']),
  kept = {
    logStore: createMemoryLogStore(sha256),
    dayStore: createMemoryDayStore(sha256),
    hubStore: createMemoryHubStore(),
  },
) {
  const clinic = createClinic({
    ...kept,
    hub,
    device,
    clock,
    turn: { isOurs: () => true, ask: () => undefined },
    trust,
    sha256,
    sealer: quickSealer(),
    sign: quickSign(device),
    verify: quickVerify,
    onTrustChange: () => () => undefined,
  })
  return { ...kept, clinic, hub }
}
