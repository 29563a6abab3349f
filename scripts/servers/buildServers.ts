import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'
import { ROOT } from '../checks/runTool.ts'

/** What a JVM needs to run the outside engines. */
export interface ServerBuild {
  readonly classpath: string
}

/** Artifacts and class files lie outside the checkout: about 340 MB, fetched once. */
const CACHE = join(
  process.env.STILLHAND_CACHE ??
    join(process.env.XDG_CACHE_HOME ?? join(homedir(), '.cache'), 'stillhand'),
  'servers',
)
const SOURCE = join(ROOT, 'tests', 'servers', 'java')

const runs = (command: string): boolean => spawnSync(command, ['-version']).status === 0

/** Which of the tools that the engines are built with this machine lacks. */
export const missingTools = (): readonly string[] =>
  [
    ['a JDK (17 or later)', 'javac'],
    ['Maven', 'mvn'],
  ].flatMap(([name = '', command = '']) => (runs(command) ? [] : [name]))

/**
 * Builds them from Maven artifacts, if that was not done for these very sources before.
 * @throws Error with what Maven said
 */
export function buildServers(): ServerBuild {
  const out = join(CACHE, 'build')
  const stamp = join(out, 'built-from')
  const sources = hashOf(SOURCE)
  if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== sources) {
    mkdirSync(out, { recursive: true })
    const args = ['-q', '-B', '-f', join(SOURCE, 'pom.xml'), `-Dout=${out}`]
    const local = `-Dmaven.repo.local=${join(CACHE, 'repository')}`
    const { status, stdout, stderr } = spawnSync('mvn', [...args, local, 'compile'], {
      encoding: 'utf8',
      timeout: 900_000,
    })
    if (status !== 0) throw new Error(`Maven could not build the engines.\n${stdout}\n${stderr}`)
    writeFileSync(stamp, sources)
  }
  const jars = readFileSync(join(out, 'classpath'), 'utf8').trim()
  return { classpath: `${join(out, 'classes')}:${jars}` }
}

function hashOf(folder: string): string {
  const hash = createHash('sha256')
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
  for (const file of files
    .filter((each) => each.isFile())
    .sort((a, b) => (a.name < b.name ? -1 : 1))) {
    hash.update(file.name).update(readFileSync(join(file.parentPath, file.name)))
  }
  return hash.digest('hex')
}
