import type { BloodLimits } from '../bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../catalogue/catalogue.ts'
import type { CatalogueTexts } from '../catalogue/catalogueTexts.ts'
import type { FillCorrection } from '../flow/fillCorrection.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { NeedleSet, Order, Patient, Preparation } from '../order/order.ts'
import type { Policy } from '../policy/policy.ts'
import type { GaugeQuestion } from './gaugeAdvice.ts'
import type { PlanTexts } from './planTexts.ts'

/** Everything a plan is made from. `today` is the local date, `YYYY-MM-DD`. */
export interface PlanInput {
  readonly order: Order
  readonly patient: Patient
  readonly preparation: Preparation
  /** Not from a vein but from here, drop by drop. */
  readonly collecting?: SkinPlace | undefined
  readonly needleSet: NeedleSet
  readonly catalogue: Catalogue
  /** Tubes on hand with their lots; `undefined` where nobody has counted: then every tube of the catalogue is there. */
  readonly stock: readonly StockTube[] | undefined
  readonly bloodLimits: BloodLimits
  readonly policy: Policy
  readonly today: string
  /** The words the plan is told in. */
  readonly texts: { readonly plan: PlanTexts; readonly catalogue: CatalogueTexts }
  /** What the site measured of how its sets fill, and somebody accepted. */
  readonly fillCorrections?: readonly FillCorrection[] | undefined
  readonly bodyTemperature_C?: number
  /** Where the needle will go, once that is chosen. */
  readonly vein?: GaugeQuestion['vein']
}
