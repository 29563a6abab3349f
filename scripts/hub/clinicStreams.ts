import type { JetStreamManager, StreamConfig } from '@nats-io/jetstream'
import {
  CLINIC_STREAM,
  clinicSubjects,
  SITE_STREAM,
  siteSubjects,
} from '../../src/adapters/hub/nats/subjects.ts'

/** What stands in either is there for ever; nobody takes it away, the administrator included. */
const KEPT = {
  storage: 'file',
  retention: 'limits',
  discard: 'new',
  deny_delete: true,
  deny_purge: true,
  // Pages of history come from any node; what must be right is asked of the leader.
  allow_direct: true,
} as const

type Wanted = Partial<StreamConfig> & { readonly name: string }

const clinicStream = (clinic: string, replicas: number): Wanted => ({
  name: CLINIC_STREAM,
  description: 'Entries of all logs of the clinic, sealed by the devices',
  subjects: [clinicSubjects(clinic)],
  num_replicas: replicas,
  ...KEPT,
})

/** The shape of a key-value bucket, so that the server's own tools can read it. */
const siteStream = (clinic: string, replicas: number): Wanted => ({
  name: SITE_STREAM,
  description: 'Claims and what the site has set, sealed by the devices',
  subjects: [siteSubjects(clinic)],
  num_replicas: replicas,
  max_msgs_per_subject: 8,
  ...KEPT,
})

/** Makes what is missing and leaves what is there; safe to run again. Says what it made. */
export async function setUpStreams(
  manager: JetStreamManager,
  clinic: string,
  replicas: number,
): Promise<readonly string[]> {
  const made: string[] = []
  for (const wanted of [clinicStream(clinic, replicas), siteStream(clinic, replicas)]) {
    const there = await manager.streams.info(wanted.name).catch(() => undefined)
    if (there) continue
    await manager.streams.add(wanted)
    made.push(wanted.name)
  }
  return made
}
