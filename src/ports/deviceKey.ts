/** Signs exports with a key that never leaves this browser. Texts are hex. */
export interface DeviceKey {
  /** Public key (SPKI) and a short name for it. */
  identity(): Promise<{ readonly publicKey: string; readonly keyId: string }>
  sign(text: string): Promise<string>
}
