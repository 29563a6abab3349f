import { readSite } from '../../src/app/site/readSite.ts'
import type { SiteData } from '../../src/app/site/siteData.ts'
import bench from '../../src/data/catalogue/bench.json'
import bloodLimits from '../../src/data/catalogue/bloodLimits.json?raw'
import laboratories from '../../src/data/catalogue/laboratories.json?raw'
import norms from '../../src/data/catalogue/norms.json?raw'
import preferences from '../../src/data/catalogue/preferences.json?raw'
import search from '../../src/data/catalogue/search.json?raw'
import series from '../../src/data/catalogue/series.json?raw'
import stock from '../../src/data/catalogue/stock.csv?raw'
import tests from '../../src/data/catalogue/tests.csv?raw'
import tubes from '../../src/data/catalogue/tubes.csv?raw'
import demo from '../../src/data/demo.json'
import betweenPhrases from '../../src/data/en/betweenPhrases.json'
import phrases from '../../src/data/en/phrases.json'
import { LANGUAGE_FILES } from '../../src/data/languages.ts'
import policy from '../../src/data/policy.json'
import { prompts, texts, words } from './language.ts'

/** The shipped site, read without files of the system, so that the gallery can show it as well. */
export const shippedSite: SiteData = readSite({
  catalogue: { tests, tubes, stock, norms, bloodLimits, preferences, series, search, laboratories },
  policy,
  texts,
  recordTexts: LANGUAGE_FILES.en.texts,
  words,
  prompts,
  phrases,
  betweenPhrases,
  demo,
  bench,
})
