import { describe, it } from 'vitest'
import { hubContract } from '../../../contract/hub.contract.ts'
import { PATIENCE_ms } from '../../../support/hubRig.ts'
import { NATS_SERVER, natsProcess } from '../../../support/natsProcess.ts'
import { natsHub, plainServer, setUp } from '../../../support/natsRig.ts'

if (NATS_SERVER) {
  hubContract(`nats-server ${NATS_SERVER.version}`, async () => {
    const server = await natsProcess(plainServer)
    await server.start()
    await setUp(server.port, 1)
    return {
      join: async (device) => natsHub(device, server.port, PATIENCE_ms),
      down: server.kill,
      up: server.start,
      freeze: server.freeze,
      thaw: async () => server.thaw(),
      copy: async () => {
        const putBack = await server.copyDisk()
        return async () => {
          await server.kill()
          putBack()
          await server.start()
        }
      },
      end: server.remove,
    }
  })
} else {
  describe.skip('nats-server as a hub', () => {
    it('is not on this machine', () => undefined)
  })
}
