export const ECDSA_P256 = { name: 'ECDSA', namedCurve: 'P-256' } as const
export const ECDSA_SHA256 = { name: 'ECDSA', hash: 'SHA-256' } as const
