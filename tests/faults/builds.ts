import {
  cpSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { extname, join } from 'node:path'

const TEXTS = ['.js', '.css', '.html']
/** What a build ends the names of its files with. */
const HASHED = /-([\w-]{8})\.(?:js|css)$/

export interface Builds {
  /** The folder to serve; it holds the old build until the new one is laid in its place. */
  readonly served: string
  readonly layNew: () => void
  close(): void
}

/**
 * The built app twice, as two versions of one source differ: the newer has other names for all files of code and says
 * of itself that it is the newer. Made from the build, since building anew takes longer than the faults themselves.
 */
export function twoBuilds(dist: string): Builds {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-builds-'))
  const served = join(folder, 'served')
  const lay = (version: 'old' | 'new'): void => {
    symlinkSync(join(folder, version), `${served}-next`)
    renameSync(`${served}-next`, served)
  }
  for (const version of ['old', 'new']) cpSync(dist, join(folder, version), { recursive: true })
  makeNewer(join(folder, 'new'))
  lay('old')
  return {
    served,
    layNew: () => lay('new'),
    close: () => rmSync(folder, { recursive: true, force: true }),
  }
}

function makeNewer(root: string): void {
  const assets = join(root, 'assets')
  const names = readdirSync(assets).filter((name) => HASHED.test(name))
  const renamed = names.map(
    (name) => [name, name.replace(HASHED, (end) => `-newer000${extname(end)}`)] as const,
  )
  const inNewer = (text: string): string =>
    renamed.reduce((changed, [from, to]) => changed.replaceAll(from, to), text)
  for (const path of [...names.map((name) => join('assets', name)), 'index.html', 'sw.js']) {
    if (!TEXTS.includes(extname(path))) continue
    const text = inNewer(readFileSync(join(root, path), 'utf8'))
    writeFileSync(join(root, path), markedNewer(path, text))
  }
  for (const [from, to] of renamed) renameSync(join(assets, from), join(assets, to))
}

function markedNewer(path: string, text: string): string {
  if (path === 'sw.js') return text.replace('url:"index.html",revision:"', '$&newer')
  return path.endsWith('.js') ? `globalThis.stillhandBuild='newer';${text}` : text
}
