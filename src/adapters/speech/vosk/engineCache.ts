/** Where the engine keeps unpacked models; its key is the address alone, so a broken one would stay for good. */
const ENGINE_DATABASE = '/vosk'
/** Which archive was checked and unpacked last, so that a start from the cache fetches nothing. */
const NOTE = 'stillhand-model'

/** Empties the engine's cache; an old model would be read into memory at every start. */
export function emptyEngineCache(): Promise<void> {
  writeNote('')
  return new Promise((resolve) => {
    const request = indexedDB.deleteDatabase(ENGINE_DATABASE)
    // When it is blocked, whatever is opened next waits for the deletion.
    request.onsuccess = request.onerror = request.onblocked = () => resolve()
  })
}

/** What `writeNote` was given last, if the engine's cache is still there. */
export async function readNote(): Promise<string> {
  try {
    const note = localStorage.getItem(NOTE) ?? ''
    const databases = await indexedDB.databases()
    return databases.some(({ name }) => name === ENGINE_DATABASE) ? note : ''
  } catch {
    return ''
  }
}

export function writeNote(text: string): void {
  try {
    localStorage.setItem(NOTE, text)
  } catch {
    // Without the note the archive is checked again next time.
  }
}
