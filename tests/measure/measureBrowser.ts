import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type BrowserContext, type Page } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { bundlePage } from './bundlePage.ts'
import type { MeasureApi } from './page.ts'
import { pageServer, type PageServer } from './pageServer.ts'
import { watchedWorker, workerMemory, type WorkerMemory } from './workerMemory.ts'

type Api<K extends keyof MeasureApi> = (
  ...args: Parameters<MeasureApi[K]>
) => ReturnType<MeasureApi[K]>

export interface MeasureBrowser {
  readonly server: PageServer
  /** A page with nothing loaded. */
  open(): Promise<MeasurePage>
  /** Highest resident memory of each page process so far, bytes by process; empty where the system does not tell. */
  peaks_B(): ReadonlyMap<string, number>
  close(): Promise<void>
}

export interface MeasurePage {
  readonly load: Api<'load'>
  readonly run: Api<'run'>
  readonly runStock: Api<'runStock'>
  /** What the recognizer's worker holds; its heap never shrinks, so this is its peak. */
  memory(): Promise<WorkerMemory>
  close(): Promise<void>
}

/** The page bundled and served, and a headless Chromium with an empty profile. */
export async function measureBrowser(): Promise<MeasureBrowser> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-measure-'))
  await bundlePage(join(import.meta.dirname, 'page.ts'), folder)
  const server = await pageServer(folder)
  server.extra.set('/vosk/vosk.worker.js', watchedWorker())
  const profile = join(folder, 'profile')
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: needChromium(),
    headless: true,
    args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-background-timer-throttling'],
  })
  return {
    server,
    open: () => openPage(context, server.url),
    peaks_B: () => peaksOf(profile),
    async close() {
      await context.close()
      await server.close()
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

async function openPage(context: BrowserContext, url: string): Promise<MeasurePage> {
  const page = await context.newPage()
  await page.goto(url)
  await page.waitForFunction(() => 'stillhandMeasure' in window)
  return {
    load: caller(page, 'load'),
    run: caller(page, 'run'),
    runStock: caller(page, 'runStock'),
    memory: () => workerMemory(page),
    close: () => page.close(),
  }
}

function caller<K extends keyof MeasureApi>(page: Page, name: K): Api<K> {
  const call = (...args: unknown[]): Promise<unknown> =>
    page.evaluate(
      ([called, given]) => {
        const api = (window as unknown as { stillhandMeasure: Record<string, unknown> })
          .stillhandMeasure
        return (api[called] as (...all: unknown[]) => unknown)(...given)
      },
      [name, args] as const,
    )
  return call as unknown as Api<K>
}

/** Linux tells the high-water mark of each process. */
function peaksOf(profile: string): ReadonlyMap<string, number> {
  const peaks = new Map<string, number>()
  const pids = existsSync('/proc/self/status')
    ? readdirSync('/proc').filter((name) => /^\d+$/.test(name))
    : []
  for (const pid of pids) {
    try {
      const command = readFileSync(`/proc/${pid}/cmdline`, 'utf8')
      if (!command.includes('--type=renderer') || !command.includes(profile)) continue
      const status = readFileSync(`/proc/${pid}/status`, 'utf8')
      peaks.set(pid, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) * 1024)
    } catch {
      // The process has ended meanwhile.
    }
  }
  return peaks
}
