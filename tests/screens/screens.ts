/**
 * `npm run screens:measure -- [--out FILE] [--only TEXT] [--size 1180x820] [--no-pixels] [--readme]`: measures every
 * state of the draw screen in Chromium, at every size, light and dark. Writes the figures as JSON and what is wrong,
 * the most frequent first, as text beside it; `--readme` puts a table into the README. Ends with 1 when anything is.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { parseArgs } from 'node:util'
import { chromium } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { faultLines, listFindings } from './listFindings.ts'
import { SIZES } from './looks.ts'
import { measureScreens } from './measureScreens.ts'
import { screensTable, writeIntoReadme } from './readmeTable.ts'
import { serveGallery } from './serveGallery.ts'

const { values } = parseArgs({
  options: {
    out: { type: 'string', default: 'coverage/screens.json' },
    only: { type: 'string' },
    size: { type: 'string' },
    'no-pixels': { type: 'boolean', default: false },
    readme: { type: 'boolean', default: false },
  },
})

const served = await serveGallery()
const browser = await chromium.launch({ executablePath: needChromium() })
const began_ms = Date.now()
try {
  const page = await browser.newPage({ reducedMotion: 'reduce', bypassCSP: true })
  const { only = '' } = values
  const screens = await measureScreens(page, served.url, {
    sizes: SIZES.filter(({ name }) => values.size === undefined || name === values.size),
    states: (name) => name.includes(only),
    pixels: !values['no-pixels'],
  })
  const faults = listFindings(screens)
  const seconds = Math.round((Date.now() - began_ms) / 1000)
  const about = `${screens.length} screens in ${seconds} s, ${faults.length} faults in ${faults.reduce((n, fault) => n + fault.n, 0)} places`
  mkdirSync(dirname(values.out), { recursive: true })
  writeFileSync(values.out, JSON.stringify({ about, faults, screens }, undefined, 1))
  writeFileSync(values.out.replace(/\.json$/, '.txt'), `${about}\n\n${faultLines(faults)}\n`)
  console.log(about)
  if (values.readme) writeIntoReadme(screensTable(screens))
  process.exitCode = faults.length > 0 ? 1 : 0
} finally {
  await browser.close()
  served.close()
}
