import { describe, expect, it } from 'vitest'
import type { RecordServer } from '../../src/ports/recordServer.ts'
import { transactionAnswer } from '../../src/core/handOver/transactionAnswer.ts'
import { OPEN_SITE, transactionFor } from '../support/fhirTransaction.ts'
import { sampleLog } from '../support/sampleLog.ts'

/** What every way to a FHIR R4 server does; behind it stands a server of another maker. */
export function recordServerContract(name: string, fresh: () => Promise<RecordServer>): void {
  describe(`a way to the record server: ${name}`, () => {
    const transaction = transactionFor(sampleLog(), OPEN_SITE)
    const n = transaction.entry.length
    const text = JSON.stringify(transaction)

    // HL7 FHIR R4, http.html, "Transaction" and "Conditional create": the second time nothing is made.
    it('brings a transaction there, and a second time changes nothing', async () => {
      const server = await fresh()
      const statuses = async (): Promise<readonly string[]> => {
        const answer = transactionAnswer(await server.transact(text), n)
        if (answer.kind !== 'done') throw new Error(JSON.stringify(answer))
        const entry = answer.body['entry'] as { response: { status: string } }[]
        return entry.map(({ response }) => response.status.slice(0, 3))
      }
      expect(await statuses()).toEqual(transaction.entry.map(() => '201'))
      expect(await statuses()).toEqual(transaction.entry.map(() => '200'))
      const found = await server.search('Specimen?_count=100')
      expect(found).toMatchObject({ kind: 'done', body: { resourceType: 'Bundle' } })
    })

    // R4, http.html, "Batch/Transaction": only these two kinds may be sent.
    it('hands on in words what is refused', async () => {
      const server = await fresh()
      const refused = await server.transact(JSON.stringify({ ...transaction, type: 'collection' }))
      expect(transactionAnswer(refused, n)).toMatchObject({ kind: 'refused', status: 400 })
      expect(JSON.stringify(refused)).toMatch(/bundle/i)
    })

    // R4, http.html, "Conditional update": created where nothing is found, else put in its place.
    it('puts a resource where a search finds it', async () => {
      const server = await fresh()
      const search = `Task?identifier=${encodeURIComponent('https://example.org/task|L1')}`
      const task = (status: string): string =>
        JSON.stringify({
          resourceType: 'Task',
          identifier: [{ system: 'https://example.org/task', value: 'L1' }],
          status,
          intent: 'order',
        })
      expect((await server.put(search, task('received'))).kind).toBe('done')
      expect((await server.put(search, task('completed'))).kind).toBe('done')
      const found = await server.search(search)
      const entry = found.kind === 'done' ? (found.body['entry'] as unknown[]) : []
      expect(entry).toMatchObject([{ resource: { status: 'completed' } }])
    })

    it('goes to no other server for a further page', async () => {
      const server = await fresh()
      expect(await server.search('https://elsewhere.example/fhir?page=2')).toMatchObject({
        kind: 'trouble',
        why: 'moved',
      })
    })
  })
}
