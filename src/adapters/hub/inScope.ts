import type { HubEntry, HubScope } from '../../ports/hub.ts'

/** Whether an entry is one of those asked for. */
export const inScope = ({ log, kind }: HubScope, entry: HubEntry): boolean =>
  (log === undefined || log === entry.log) && (kind === undefined || kind === entry.kind)
