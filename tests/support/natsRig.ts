import { jetstreamManager } from '@nats-io/jetstream'
import { connect } from '@nats-io/transport-node'
import { setUpStreams } from '../../scripts/hub/clinicStreams.ts'
import { createNatsHub } from '../../src/adapters/hub/nats/natsHub.ts'
import type { Dial } from '../../src/adapters/hub/nats/natsLink.ts'
import { dialOptions } from '../../src/adapters/hub/nats/dialOptions.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import type { Hub } from '../../src/ports/hub.ts'

const CLINIC = 'c 1'
const clock = createSystemClock('boot')

/** A server for this machine alone, without passes: what the contract needs. */
export const plainServer = (port: number, store: string): string => `
listen: "127.0.0.1:${port}"
jetstream { store_dir: "${store}", max_file_store: 1GB, max_memory_store: 16MB, sync_interval: always }
`

/** Dials in Node as the app does in a browser. */
const nodeDial =
  (device: string, port: number | readonly number[]): Dial =>
  (patience_ms) =>
    connect({
      ...dialOptions(device, patience_ms),
      servers: [port].flat().map((one) => `127.0.0.1:${one}`),
    })

export const natsHub = (
  device: string,
  port: number | readonly number[],
  patience_ms: number,
  clinic = CLINIC,
): Hub =>
  createNatsHub({
    clinic,
    device,
    clock,
    random: Math.random,
    patience_ms,
    dial: nodeDial(device, port),
  })

/** Makes the streams, as `hub:start` does. */
export async function setUp(port: number, replicas: number, clinic = CLINIC): Promise<void> {
  const connection = await connect({ servers: `127.0.0.1:${port}` })
  await setUpStreams(await jetstreamManager(connection, { checkAPI: false }), clinic, replicas)
  await connection.close()
}
