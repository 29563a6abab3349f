import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog, type Line } from '../../support/sampleLog.ts'

describe('the tasks of a bundle', () => {
  it('gives a task with the reason for each test that was not collected', () => {
    const log = sampleLog({
      without: (event) =>
        ('tubeId' in event && event.tubeId === 't3') || event.type === 'drawClosed',
      add: [
        [350, { type: 'noFurtherPuncture' }],
        [380, { type: 'drawClosed', outcome: 'partial' }],
      ],
    })
    const bundle = bundleOf(log)
    const [task, ...more] = ofType(bundle, 'Task')
    expect(more).toEqual([])
    expect(task).toMatchObject({
      status: 'cancelled',
      statusReason: { text: 'no further puncture' },
    })
    const [, , third] = ofType(bundle, 'ServiceRequest')
    expect(task?.focus?.reference).toBe(`urn:uuid:${third?.id}`)
    expect(third?.status).toBe('active')
    expect(ofType(bundleOf(sampleLog()), 'Task')).toEqual([])
  })

  it('gives the nearest reason, not that the draw was stopped', () => {
    const reasonOf = (add: readonly Line[], without: readonly string[] = []) => {
      const log = sampleLog({
        without: (event) =>
          ('tubeId' in event && event.tubeId === 't3') ||
          event.type === 'drawClosed' ||
          without.includes(event.type),
        add: [...add, [380, { type: 'drawClosed', outcome: 'stopped', reason: 'As told.' }]],
      })
      return ofType(bundleOf(log), 'Task').at(-1)?.statusReason.text
    }
    const noNeedle = ['needleIn', 'flashSeen', 'tubeOn', 'tubeOff', 'tubeMixed', 'needleOut']
    expect(reasonOf([])).toBe('the draw was stopped: As told.')
    expect(reasonOf([[160, { type: 'tubeSwapped', tubeId: 't3', why: 'noVacuum' }]])).toBe(
      'its tube was set aside (no vacuum) and no other was filled: As told.',
    )
    expect(reasonOf([[160, { type: 'exceptionRaised', kind: 'faint' }]])).toBe(
      'the draw was stopped: Patient faint: As told.',
    )
    expect(
      reasonOf([
        [159, { type: 'tubeOn', tubeId: 't3' }],
        [160, { type: 'tubeOff', tubeId: 't3', fill: 'empty' }],
      ]),
    ).toBe('its tube came off without blood: As told.')
    expect(reasonOf([[60, { type: 'notPrepared', what: 'ate' }]], noNeedle)).toBe(
      'the patient was not prepared: As told.',
    )
    // What befell the collector is for the exposure record alone.
    expect(reasonOf([[160, { type: 'exceptionRaised', kind: 'needlestick' }]])).toBe(
      'the draw was stopped: As told.',
    )
  })
})
