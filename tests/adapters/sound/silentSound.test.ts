import { expect, it } from 'vitest'
import { silentSound } from '../../../src/adapters/sound/silentSound.ts'
import { soundContract } from '../../contract/sound.contract.ts'

soundContract('silent', () => ({ sound: silentSound(), settled: () => Promise.resolve() }))

it('has ended speaking by the time speak returns', () => {
  const sound = silentSound()
  const edges: boolean[] = []
  sound.onSpeaking((speaking) => edges.push(speaking))
  sound.speak('app.test')
  expect(edges).toEqual([true, false])
})
