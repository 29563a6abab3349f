/** The clinic's own authority and the certificates of its servers. */
import 'reflect-metadata'
import { webcrypto } from 'node:crypto'
import { isIP } from 'node:net'
import * as x509 from '@peculiar/x509'

export interface Pem {
  readonly certificate: string
  readonly key: string
}

export interface Authority extends Pem {
  readonly pair: CryptoKeyPair
  readonly made: x509.X509Certificate
}

const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' }
const crypto = webcrypto as unknown as Crypto
x509.cryptoProvider.set(crypto)

const newPair = (): Promise<CryptoKeyPair> =>
  crypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify'])

async function keyPem({ privateKey }: CryptoKeyPair): Promise<string> {
  return x509.PemConverter.encode(await crypto.subtle.exportKey('pkcs8', privateKey), 'PRIVATE KEY')
}

const serial = (): string => Buffer.from(crypto.getRandomValues(new Uint8Array(16))).toString('hex')

/** An authority that signs servers of this clinic and nothing else. Devices are told to trust it. */
export async function makeAuthority(clinic: string, from: Date, until: Date): Promise<Authority> {
  const pair = await newPair()
  const made = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: [{ CN: [`Stillhand hub of ${clinic}`] }],
    notBefore: from,
    notAfter: until,
    signingAlgorithm: ALGORITHM,
    keys: pair,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(
        x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign,
        true,
      ),
      await x509.SubjectKeyIdentifierExtension.create(pair.publicKey),
    ],
  })
  return { certificate: made.toString('pem'), key: await keyPem(pair), pair, made }
}

/** A server under these names and addresses. */
export async function makeServerCertificate(
  authority: Pick<Authority, 'pair' | 'made'>,
  hosts: readonly string[],
  from: Date,
  until: Date,
): Promise<Pem> {
  const pair = await newPair()
  const names = hosts.map((value) => ({
    type: isIP(value) ? ('ip' as const) : ('dns' as const),
    value,
  }))
  const made = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: [{ CN: [hosts[0] ?? 'hub'] }],
    issuer: authority.made.subject,
    notBefore: from,
    notAfter: until,
    signingAlgorithm: ALGORITHM,
    publicKey: pair.publicKey,
    signingKey: authority.pair.privateKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      // Nodes of a cluster show it to each other in both directions.
      new x509.ExtendedKeyUsageExtension([
        x509.ExtendedKeyUsage.serverAuth,
        x509.ExtendedKeyUsage.clientAuth,
      ]),
      new x509.SubjectAlternativeNameExtension(names),
      await x509.SubjectKeyIdentifierExtension.create(pair.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(authority.pair.publicKey),
    ],
  })
  return { certificate: made.toString('pem'), key: await keyPem(pair) }
}
