import { describe, expect, it } from 'vitest'
import { languageInUse } from '../../../src/app/site/languageInUse.ts'

/** A store in memory with what it holds. */
function storeOf(kept: Record<string, string>) {
  return {
    kept,
    read: (key: string) => Promise.resolve(kept[key]),
    write: (key: string, json: string) => {
      kept[key] = json
      return Promise.resolve()
    },
  }
}
const during = () => Promise.resolve(true)
const between = () => Promise.resolve(false)
const SPANISH = JSON.stringify({ language: 'es' })

describe('the language of a page that is loaded', () => {
  it('is English at first', async () => {
    expect(await languageInUse(storeOf({}), between)).toBe('en')
  })

  it('is that of the settings', async () => {
    expect(await languageInUse(storeOf({ settings: SPANISH }), between)).toBe('es')
  })

  it('stays what it was while a draw is under way, and changes after it', async () => {
    const store = storeOf({})
    await languageInUse(store, between)
    store.kept['settings'] = SPANISH
    expect(await languageInUse(store, during)).toBe('en')
    expect(await languageInUse(store, between)).toBe('es')
    expect(await languageInUse(store, during)).toBe('es')
  })

  it.each([
    '{',
    'null',
    '[]',
    '{"language":"xx"}',
    '{"language":7}',
    '{"__proto__":{"language":"es"}}',
  ])('is English where the settings are %s', async (settings) => {
    expect(await languageInUse(storeOf({ settings }), between)).toBe('en')
  })

  it('is shown also by a disk that is full: without the note the next start asks anew', async () => {
    const full = {
      ...storeOf({ settings: SPANISH }),
      write: () => Promise.reject(new Error('Full.')),
    }
    expect(await languageInUse(full, between)).toBe('es')
  })

  it('is what was in use, or English, where the disk reads nothing: that is told by the settings', async () => {
    const refuse = (): Promise<never> => Promise.reject(new Error('Refused.'))
    const { write } = storeOf({})
    expect(await languageInUse({ read: refuse, write }, refuse)).toBe('en')
    const read = (key: string) => (key === 'settings' ? refuse() : Promise.resolve('es'))
    expect(await languageInUse({ read, write }, between)).toBe('es')
  })

  it('does not take a damaged note of what was in use', async () => {
    expect(await languageInUse(storeOf({ languageInUse: 'xx', settings: SPANISH }), during)).toBe(
      'es',
    )
  })
})
