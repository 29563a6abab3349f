/** What joining needs of cryptography. All hex. */
export interface JoinCrypto {
  /**
   * The key of one attempt: made slowly of the code and of everything that both sides have seen, so that whoever
   * recorded it all would have to make one slow key for each code that there is.
   */
  key(code: string, transcript: string): Promise<string>
  /** HMAC with SHA-256. */
  mac(key: string, text: string): string
  /** Random bytes. */
  lot(bytes_n: number): Uint8Array<ArrayBuffer>
}
