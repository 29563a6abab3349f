import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { LANGUAGES, readLanguage, voiceOf } from '../../../src/app/site/languages.ts'
import { StorageError } from '../../../src/ports/storageFault.ts'
import { appRig } from '../../support/appRig.ts'

const kept = async (json: string) => {
  const store = createMemorySettingsStore()
  await store.write('settings', json)
  return readLanguage(store)
}

describe('the language at the start of a page', () => {
  it('is the one that was chosen here', async () => {
    expect(await kept('{"language":"es","volume":0.3}')).toBe('es')
    expect(await kept('{"language":"en"}')).toBe('en')
  })

  it.each([
    ['nothing was kept', undefined],
    ['what was kept is no JSON', '{"language":"es"'],
    ['it is of a language that does not ship', '{"language":"fr"}'],
    ['it is no language', '{"language":["es"]}'],
    ['it is a name that every object has', '{"language":"constructor"}'],
  ])('is English where %s', async (_why, json) => {
    expect(
      await (json === undefined ? readLanguage(createMemorySettingsStore()) : kept(json)),
    ).toBe('en')
  })

  it('is English where the disk refuses to say', async () => {
    const read = () => Promise.reject(new StorageError('refused', 'as asked'))
    expect(await readLanguage({ read })).toBe('en')
  })
})

describe('the voice', () => {
  it('is the chosen one only where it speaks that language, and has recordings in each', () => {
    expect(voiceOf('en', 'am_michael')).toBe('am_michael')
    expect(voiceOf('es', 'am_michael')).toBe('ef_dora')
    expect(voiceOf('en', 'ef_dora')).toBe('af_heart')
    const folder = join(import.meta.dirname, '../../../public/prompts')
    for (const language of LANGUAGES)
      expect(existsSync(join(folder, voiceOf(language, ''), 'app.test.ogg'))).toBe(true)
  })
})

describe('another language', () => {
  it('begins the page anew once it is kept, and nothing speaks it before', async () => {
    const rig = appRig()
    await rig.app.start()
    rig.actions.changeSettings({ language: 'es' })
    expect(rig.state().settings.language).toBe('en')
    await rig.settle()
    expect(await rig.deps.settingsStore.read('settings')).toContain('"language":"es"')
    expect(rig.deps.page).toMatchObject({ done: ['startAnew'] })
  })

  it('is told and not taken where it cannot be kept', async () => {
    const rig = appRig()
    await rig.app.start()
    rig.deps.settingsStore.write = () => Promise.reject(new StorageError('full', 'as asked'))
    rig.actions.changeSettings({ language: 'es' })
    await rig.settle()
    expect(rig.state().trouble).toMatch(/^The settings cannot be saved\./)
    expect(rig.state().settings.language).toBe('en')
    expect(rig.deps.page).toMatchObject({ done: [] })
  })

  it('waits for the end of a draw', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.begin({ fullName: 'Anna First' })
    rig.actions.changeSettings({ language: 'es' })
    await rig.settle()
    expect(rig.state().trouble).toMatch(/^The language changes between draws/)
    expect(rig.deps.page).toMatchObject({ done: [] })
    expect((await rig.deps.settingsStore.read('settings')) ?? '').not.toContain('"es"')
  })
})
