/** Where the engine keeps unpacked models; its key is the address alone, so a broken one would stay for good. */
const ENGINE_DATABASE = '/vosk'
/** Which archive was checked and unpacked last, so that a start from the cache fetches nothing. */
const MARKER = 'stillhand-model'

/** Empties the engine's cache; an old model would be read into memory at every start. */
export function emptyEngineCache(): Promise<void> {
  writeMarker('')
  return new Promise((resolve) => {
    const request = indexedDB.deleteDatabase(ENGINE_DATABASE)
    // When it is blocked, whatever is opened next waits for the deletion.
    request.onsuccess = request.onerror = request.onblocked = () => resolve()
  })
}

/** What `writeMarker` was given last, if the engine's cache is still there. */
export async function readMarker(): Promise<string> {
  try {
    const marker = localStorage.getItem(MARKER) ?? ''
    const databases = await indexedDB.databases()
    return databases.some(({ name }) => name === ENGINE_DATABASE) ? marker : ''
  } catch {
    return ''
  }
}

export function writeMarker(text: string): void {
  try {
    localStorage.setItem(MARKER, text)
  } catch {
    // Without the marker the archive is checked again next time.
  }
}
