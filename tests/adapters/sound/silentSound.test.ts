import { expect, it } from 'vitest'
import { createSilentSound } from '../../../src/adapters/sound/silentSound.ts'
import { soundContract } from '../../contract/sound.contract.ts'

soundContract('silent', () => ({ sound: createSilentSound(), settled: () => Promise.resolve() }))

it('has ended speaking by the time speak returns', () => {
  const sound = createSilentSound()
  const edges: boolean[] = []
  sound.onSpeaking((speaking) => edges.push(speaking))
  sound.speak('app.test')
  expect(edges).toEqual([true, false])
})
