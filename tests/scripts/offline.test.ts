import { describe, expect, it } from 'vitest'
import { copiedFiles } from '../../scripts/build/copiedFiles.ts'
import { offline } from '../../scripts/build/offline.ts'
import { SPEECH_MODELS } from '../../src/app/site/speechModels.ts'

const root = new URL('../..', import.meta.url).pathname
const { workbox } = offline(root, [])

describe('what the service worker keeps', () => {
  it('is the app’s own model from the start, and no other that is beside it', () => {
    const [shipped, ...others] = SPEECH_MODELS.map((name) => `models/${name}`)
    expect([...copiedFiles(root).keys()]).toEqual(expect.arrayContaining([shipped, ...others]))
    expect(workbox?.globIgnores).toEqual(expect.arrayContaining(others))
    expect(workbox?.globIgnores).not.toContain(shipped)
  })

  it('is another model too, once it was asked for', () => {
    const rule = workbox?.runtimeCaching?.find(({ options }) => options?.cacheName === 'models')
    const url = new URL('http://localhost/models/stillhand-en-0.1.tar.gz')
    const matches = rule?.urlPattern as (asked: { url: URL; sameOrigin: boolean }) => boolean
    expect(matches({ url, sameOrigin: true })).toBe(true)
    expect(rule?.handler).toBe('CacheFirst')
  })
})
