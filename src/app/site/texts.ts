import type { CatalogueTexts } from '../../core/catalogue/catalogueTexts.ts'
import type { ClinicTexts } from './clinicTexts.ts'
import type { CourierTexts } from './courierTexts.ts'
import type { LogTexts } from '../../core/log/logTexts.ts'
import type { LanguageTexts } from './languageTexts.ts'
import type { LockTexts } from './lockTexts.ts'
import type { PlanTexts } from '../../core/plan/planTexts.ts'
import type { JsonFaultTexts } from '../../core/text/parseJson.ts'
import type { NoteTemplate } from '../../core/record/noteTemplate.ts'
import type { RecordTexts } from '../../core/record/recordTexts.ts'
import type { TextFaultTexts } from '../../core/text/textFaultSentence.ts'
import type { FigureTexts } from './figureTexts.ts'
import type { HandOverTexts } from './handOverTexts.ts'
import type { FileTexts } from './fileTexts.ts'
import type { BenchTexts } from './benchTexts.ts'
import type { DayTexts } from './dayTexts.ts'
import type { DeviceTexts } from './deviceTexts.ts'
import type { DrawTexts } from './drawTexts.ts'
import type { OrderTexts } from './orderTexts.ts'
import type { RecordServerTexts } from './recordServerTexts.ts'
import type { ScreenTexts } from './screenTexts.ts'
import type { StorageTexts } from './storageTexts.ts'
import type { PictureTexts } from './pictureTexts.ts'
import type { SiteTexts } from './siteTexts.ts'
import type { VoiceTexts } from './voiceTexts.ts'

/** The texts of one language, a file of its folder for each room of the app. */
export interface Texts {
  readonly catalogue: CatalogueTexts
  readonly bench: BenchTexts
  readonly clinic: ClinicTexts
  readonly courier: CourierTexts
  readonly day: DayTexts
  readonly device: DeviceTexts
  readonly draw: DrawTexts
  readonly figures: FigureTexts
  readonly handOver: HandOverTexts
  readonly language: LanguageTexts
  readonly lock: LockTexts
  readonly log: LogTexts
  readonly order: OrderTexts
  readonly note: NoteTemplate
  readonly pictures: PictureTexts
  readonly plan: PlanTexts
  readonly record: RecordTexts
  readonly recordServer: RecordServerTexts
  readonly site: SiteTexts
  readonly storage: StorageTexts
  readonly text: TextFaultTexts & { readonly json: JsonFaultTexts; readonly files: FileTexts }
  readonly screens: ScreenTexts
  readonly voice: VoiceTexts
}
