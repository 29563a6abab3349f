import type { Result } from '../core/basics/result.ts'
import type { AccessFault } from '../core/handOver/accessFault.ts'

/** What opens the FHIR server: a token, fetched when it is needed and again when it has ended. Nothing rejects. */
export interface ServerAccess {
  /** What goes with each request; nothing for a server without a login. */
  headers(): Promise<Result<Readonly<Record<string, string>>, AccessFault>>
  /** The server did not take what it was given: the next call fetches another. */
  forget(): void
}
