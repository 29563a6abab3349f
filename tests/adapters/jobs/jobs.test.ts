import { afterEach, describe, expect, it, vi } from 'vitest'
import { answerJobs, type JobScope } from '../../../src/adapters/jobs/answerJobs.ts'
import { createDirectJobs } from '../../../src/adapters/jobs/directJobs.ts'
import {
  createWorkerJobs,
  type JobAnswer,
  type JobRequest,
} from '../../../src/adapters/jobs/workerJobs.ts'
import type { Job } from '../../../src/ports/jobs.ts'

interface Sums {
  readonly add: Job<readonly number[], number>
  readonly wait: Job<undefined, undefined>
}

const handlers = {
  add: (numbers: readonly number[]) => {
    if (numbers.length === 0) throw new Error('Nothing to add.')
    return numbers.reduce((a, b) => a + b)
  },
  wait: () => new Promise<undefined>(() => undefined),
}

const ended: string[] = []

/** A worker on this thread: it answers as `answerJobs` does, in its own turn. */
function fakeWorker(): Worker {
  const scope: JobScope = {
    onmessage: null,
    postMessage: (data: JobAnswer) => void worker.onmessage?.({ data } as MessageEvent),
  }
  const worker = {
    onmessage: null as ((event: MessageEvent) => void) | null,
    onerror: null as ((event: ErrorEvent) => void) | null,
    onmessageerror: null,
    postMessage: (data: unknown) =>
      void Promise.resolve().then(() =>
        scope.onmessage?.({ data } as unknown as MessageEvent<JobRequest>),
      ),
    terminate: () => void ended.push('ended'),
  }
  answerJobs<Sums>(scope, handlers)
  return worker as unknown as Worker
}

afterEach(() => {
  ended.length = 0
  vi.useRealTimers()
})

describe.each([
  ['in a worker', () => createWorkerJobs<Sums>(fakeWorker, 1000)],
  ['on the same thread', () => createDirectJobs<Sums>(handlers)],
])('work %s', (_where, jobs) => {
  it('gives what the handler of that name gives', async () => {
    expect(await jobs().run('add', [1, 2, 3])).toBe(6)
  })

  it('fails in words when the handler breaks', async () => {
    await expect(jobs().run('add', [])).rejects.toMatchObject({
      name: 'JobError',
      fault: 'failed',
      message: 'Nothing to add.',
    })
  })
})

describe('work in a worker', () => {
  it('ends its worker when it has answered and when it broke', async () => {
    await createWorkerJobs<Sums>(fakeWorker, 1000).run('add', [1])
    await createWorkerJobs<Sums>(fakeWorker, 1000)
      .run('add', [])
      .catch(() => undefined)
    expect(ended).toEqual(['ended', 'ended'])
  })

  it('is given up when its time is over, whatever it is doing', async () => {
    vi.useFakeTimers()
    const waiting = createWorkerJobs<Sums>(fakeWorker, 1000).run('wait', undefined)
    const outcome = expect(waiting).rejects.toMatchObject({ fault: 'tooLong' })
    await vi.advanceTimersByTimeAsync(999)
    expect(ended).toEqual([])
    await vi.advanceTimersByTimeAsync(1)
    await outcome
    expect(ended).toEqual(['ended'])
  })

  it('fails in words when no worker starts, and when the worker itself breaks', async () => {
    const none = createWorkerJobs<Sums>(() => {
      throw new Error('refused')
    }, 1000)
    await expect(none.run('add', [1])).rejects.toMatchObject({ fault: 'failed' })
    let worker: Worker | undefined
    const breaking = createWorkerJobs<Sums>(() => (worker = fakeWorker()), 1000).run(
      'wait',
      undefined,
    )
    worker?.onerror?.({ message: 'out of memory' } as ErrorEvent)
    await expect(breaking).rejects.toMatchObject({ fault: 'failed', message: 'out of memory' })
  })

  it('knows no work of another name', async () => {
    const jobs = createWorkerJobs<Sums>(fakeWorker, 1000)
    await expect(jobs.run('toString' as 'add', [1])).rejects.toMatchObject({ fault: 'failed' })
  })
})
