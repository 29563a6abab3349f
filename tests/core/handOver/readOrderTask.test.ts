import { describe, expect, it } from 'vitest'
import { readOrderTask } from '../../../src/core/handOver/readOrderTask.ts'

const SYSTEM = 'urn:stillhand:draw'
const task = (value: unknown, change: Record<string, unknown> = {}) => ({
  resourceType: 'Task',
  identifier: [
    { system: 'https://example.org/task', value: 'T-1' },
    { system: SYSTEM, value },
  ],
  status: 'completed',
  ...change,
})

// The number that `orderTask` gives; R4, value set task-status.
describe('a Task of a request', () => {
  it('tells which device says what of which request', () => {
    expect(readOrderTask(task('D7-20261125-LX1Z/task/42'), SYSTEM)).toEqual({
      orderId: 'D7-20261125-LX1Z',
      device: 'D7',
      request: '42',
      isDrawn: true,
      isInDraw: false,
    })
  })

  it('has a device whose name bears hyphens, and an order whose lot was taken', () => {
    const said = readOrderTask(
      task('A-B-20261125-LX1Z-1/task/r.7', { status: 'in-progress' }),
      SYSTEM,
    )
    expect(said).toMatchObject({ device: 'A-B', request: 'r.7', isDrawn: false, isInDraw: true })
  })

  it.each([
    ['of another system', task('D7-20261125-LX/task/1'), 'urn:other'],
    ['with another number', task('T-9'), SYSTEM],
    ['without a number', task(undefined), SYSTEM],
    ['with a number that is none', task(7), SYSTEM],
    ['whose request is no id', task('D7-20261125-LX/task/a b'), SYSTEM],
    ['without identifiers', { resourceType: 'Task', status: 'completed' }, SYSTEM],
    ['that is no Task', task('D7-20261125-LX/task/1', { resourceType: 'Procedure' }), SYSTEM],
  ])('%s says nothing', (_what, resource, system) => {
    expect(readOrderTask(resource, system)).toBeUndefined()
  })

  it.each([
    'requested',
    'received',
    'on-hold',
    'failed',
    'cancelled',
    'entered-in-error',
    undefined,
  ])('that is %s keeps nobody from drawing', (status) => {
    expect(readOrderTask(task('D7-20261125-LX/task/1', { status }), SYSTEM)).toMatchObject({
      isDrawn: false,
      isInDraw: false,
    })
  })
})
