/** Small values kept on this device as JSON text; `undefined` when never set. */
export interface SettingsStore {
  read(key: string): Promise<string | undefined>
  write(key: string, json: string): Promise<void>
}
