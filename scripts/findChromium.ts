import { spawnSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']

/** Path of a Chromium on this machine: `CHROMIUM` if set, else the first found where programs are kept. */
function findChromium(): string | undefined {
  const named = process.env.CHROMIUM
  if (named !== undefined && named !== '') return runnable(named) ? named : undefined
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)]
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find(runnable)
}

/** As `findChromium`, installing Debian's package when this is root; otherwise throws with what to install. */
export function needChromium(): string {
  const found = findChromium()
  if (found) return found
  const named = process.env.CHROMIUM
  if (named !== undefined && named !== '') {
    throw new Error(`CHROMIUM is set to "${named}", which is not a program that can be run.`)
  }
  if (process.getuid?.() === 0 && runnable('/usr/bin/apt-get')) {
    console.log('No Chromium here: installing the Debian package "chromium".')
    apt('update')
    apt('install', '-y', 'chromium')
    const installed = findChromium()
    if (installed) return installed
  }
  throw new Error(
    'The end-to-end tests need Chromium: install it (on Debian: sudo apt-get install chromium) or set CHROMIUM to its path.',
  )
}

function runnable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

function apt(...args: string[]): void {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  spawnSync('apt-get', ['-q', ...args], { stdio: 'inherit', env })
}
