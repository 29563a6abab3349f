import { describe, expect, it } from 'vitest'
import { drawDriver, nextByTheScreen, TO_HANDS, toNeedleIn } from '../../support/drawDriver.ts'

describe('what may be said', () => {
  it('is little at each step of the straight way, for every further phrase can be heard by mistake', () => {
    const draw = drawDriver()
    const counts = new Map<string, number>()
    while (!draw.state().closed) {
      counts.set(draw.step(), draw.open().step.length)
      const [asked] = nextByTheScreen(draw.state())
      if (!asked) throw new Error(`nothing to do at ${draw.step()}`)
      draw.advance(1000)
      draw.tries(asked)
    }
    expect(counts.size).toBeGreaterThan(20)
    expect([...counts].filter(([, count]) => count > 16)).toEqual([])
  })

  it('at a step before the needle: the step, its refusal, the safety phrases', () => {
    const open = drawDriver().open()
    expect(open.main).toBe('confirmPatient')
    expect(open.step).toEqual([
      'identified:carer',
      'identified:interpreter',
      'identified:wristband',
      'refuseIdentity',
      'interrupted',
    ])
    expect(open.always).toContain('stopEverything')
  })

  it('never offers a restricted arm, but lets it be recorded by touch', () => {
    const draw = drawDriver({
      preparation: {
        anticoagulant: 'none',
        latexAllergy: false,
        faintedBefore: false,
        restrictions: { left: 'fistula', right: 'nodeRemoval' },
      },
    })
    draw.does(...TO_HANDS)
    const { step, happened } = draw.open()
    expect(step.filter((key) => key.startsWith('chooseArm'))).toEqual([])
    expect(happened).toEqual(expect.arrayContaining(['chooseArm:left', 'chooseArm:right']))
    expect(step).toContain('endDraw')
  })

  it('includes what makes good a check that was passed over', () => {
    const draw = drawDriver()
    draw.does('bandOn', 'needleIn')
    expect(draw.open().step).toEqual(
      expect.arrayContaining(['confirmPatient', 'refuseIdentity', 'confirmConsent']),
    )
    draw.does('confirmPatient', 'confirmConsent')
    expect(draw.open().step).not.toContain('confirmPatient')
  })

  it('includes what ends an open exception', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff', 'flowLost')
    expect(draw.open().step).toEqual(expect.arrayContaining(['flowRestored', 'exceptionHandled']))
  })

  it('does not name a command twice', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('noFlash')
    const { main, step, always, happened } = draw.open()
    const all = [main, ...step, ...always, ...happened]
    expect(new Set(all).size).toBe(all.length)
  })
})
