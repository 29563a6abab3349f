import type { Texts } from '../../app/site/texts.ts'
import catalogue from './catalogueWords.json' with { type: 'json' }
import bench from './bench.json' with { type: 'json' }
import clinic from './clinic.json' with { type: 'json' }
import courier from './courier.json' with { type: 'json' }
import day from './day.json' with { type: 'json' }
import device from './device.json' with { type: 'json' }
import draw from './draw.json' with { type: 'json' }
import figures from './figures.json' with { type: 'json' }
import handOver from './handOver.json' with { type: 'json' }
import language from './language.json' with { type: 'json' }
import lock from './lock.json' with { type: 'json' }
import log from './log.json' with { type: 'json' }
import noteJson from './note.json' with { type: 'json' }
import order from './order.json' with { type: 'json' }
import pictures from './pictures.json' with { type: 'json' }
import plan from './plan.json' with { type: 'json' }
import record from './record.json' with { type: 'json' }
import recordServer from './recordServer.json' with { type: 'json' }
import screens from './screens.json' with { type: 'json' }
import site from './site.json' with { type: 'json' }
import storage from './storage.json' with { type: 'json' }
import text from './text.json' with { type: 'json' }
import voice from './voice.json' with { type: 'json' }

/** A site may arrange the sections as it likes; they are checked when they are read. */
const note: Texts['note'] = {
  ...noteJson,
  sections: noteJson.sections as Texts['note']['sections'],
}

/** English. A text that the code asks for and a file lacks does not compile. */
export const texts: Texts = {
  catalogue,
  bench,
  clinic,
  courier,
  day,
  device,
  draw,
  figures,
  handOver,
  language,
  lock,
  log,
  note,
  order,
  pictures,
  plan,
  record,
  recordServer,
  screens,
  site,
  storage,
  text,
  voice,
}
