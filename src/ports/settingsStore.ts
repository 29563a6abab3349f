/** Small values kept on this device as JSON text; `undefined` when never set. */
export interface SettingsStore {
  read(key: string): Promise<string | undefined>
  write(key: string, json: string): Promise<void>
  /** Puts what `change` makes of a value in its place, in one act: two pages change it one after the other. */
  update(key: string, change: (json: string | undefined) => string): Promise<void>
}
