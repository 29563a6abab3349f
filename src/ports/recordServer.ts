import type { ServerAnswer } from '../core/handOver/serverAnswer.ts'

/** The FHIR R4 server of the site. Nothing rejects and nothing waits without end: what goes wrong is an answer. */
export interface RecordServer {
  /** Its base address, without a slash at its end. */
  readonly address: string
  /** Sends a transaction, as JSON text. */
  transact(transaction: string): Promise<ServerAnswer>
  /** Puts a resource in the place of the one that the search finds, or creates it (R4, conditional update). */
  put(search: string, resource: string): Promise<ServerAnswer>
  /** Searches: `ServiceRequest?status=active`; or the next page, by the address that the server gave for it. */
  search(query: string): Promise<ServerAnswer>
}
