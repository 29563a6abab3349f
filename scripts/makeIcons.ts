/** Draws the app's sign into public/icons: `npm run icons:make`. Pure arithmetic, the same pixels every time. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { dial } from './icons/dial.ts'
import { ICONS, SVG } from './icons/icons.ts'
import { toPixels } from './icons/toPixels.ts'
import { toPng } from './icons/toPng.ts'
import { toSvg } from './icons/toSvg.ts'

const folder = join(import.meta.dirname, '..', 'public', 'icons')
mkdirSync(folder, { recursive: true })
writeFileSync(join(folder, SVG.name), toSvg(dial(SVG.radius), SVG.corner))
for (const { name, size, radius, corner } of ICONS) {
  const png = toPng(toPixels(dial(radius), corner, size), size)
  writeFileSync(join(folder, name), png)
  console.log(`${name}: ${size} px, ${png.length} bytes`)
}
