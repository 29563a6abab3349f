import type { BenchRules } from '../../core/bench/benchRules.ts'
import type { ListedOrder, OrderDue } from '../../core/day/listedOrder.ts'
import type { BloodLimits } from '../../core/bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../../core/catalogue/catalogue.ts'
import type { FillCorrection } from '../../core/flow/fillCorrection.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import type { SiteSystems } from '../../core/fhir/siteSystems.ts'
import type { Policy } from '../../core/policy/policy.ts'
import type { ScenarioSite } from '../../core/scenario/openScenario.ts'
import type { Texts } from './texts.ts'
import type { BetweenPhraseBook } from './betweenPhraseBook.ts'
import type { PhraseBook } from './phraseBook.ts'
import type { Prompts, Words } from './words.ts'

/** An invented practice, patient and order to try the app with. */
export type Demo = ScenarioSite['demo'] & { readonly day: readonly DemoOrder[] }

/** An order of the invented day; when it is due is counted from now. */
export interface DemoOrder extends Pick<ListedOrder, 'patient' | 'order' | 'fasting' | 'place'> {
  readonly due?: Pick<OrderDue, 'kind' | 'tolerance_min'> & { readonly in_min: number }
}

/** Everything a site may change, read from its data files. */
export interface SiteData {
  /** The shipped catalogue, and the site's own where it has one. */
  readonly shippedCatalogue: Catalogue
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
  readonly bloodLimits: BloodLimits
  /** The shipped laboratories, and the site's own where it has named some. */
  readonly shippedLaboratories: readonly Laboratory[]
  readonly laboratories: readonly Laboratory[]
  /** The shipped policy, and the site's own where it has one. */
  readonly defaultPolicy: Policy
  readonly policy: Policy
  /** What the site measured of how its sets fill, and somebody accepted. */
  readonly fillCorrections: readonly FillCorrection[]
  readonly texts: Texts
  /** The same for the record that machines read, which is English whatever the screens are. */
  readonly recordTexts: Texts
  readonly words: Words
  readonly prompts: Prompts
  readonly phrases: PhraseBook
  readonly betweenPhrases: BetweenPhraseBook
  readonly demo: Demo
  /** How the site's record server names what a record is about. */
  readonly recordSystems: SiteSystems
  /** How specimens are spun and kept. */
  readonly bench: BenchRules
}
