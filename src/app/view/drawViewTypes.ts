import type { SkinPlace } from '../../core/order/collecting.ts'
import type { Handling } from '../../core/catalogue/handling.ts'
import type { Arm, NeedleSet } from '../../core/order/order.ts'
import type { ClockKind } from '../../core/protocol/clockTable.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { Outcome } from '../../core/protocol/events.ts'
import type { ExceptionKind } from '../../core/protocol/exceptions.ts'
import type { StepId } from '../../core/protocol/steps.ts'
import type { TubeStatus } from '../site/words.ts'
import type { TubeShape } from './tubeShape.ts'
import type { SpeechState } from '../../ports/speech.ts'
import type { PatientView } from './patientWords.ts'
import type { Place } from './places.ts'

/** One thing the person can do now. The same command answers to a button, a key and spoken words. */
export interface ChoiceView {
  readonly command: Command
  readonly label: string
  /** What to say, first wording first; empty when it is touch and keys only. */
  readonly phrases: readonly string[]
  /** `Space` for the main choice, a digit for a place or for what is always open, `Backspace` for going back. */
  readonly key?: string
  readonly place: Place
  readonly tone: 'go' | 'plain' | 'stop'
}

/** A clock as it stands at this moment; `text` is ready to show. */
export interface ClockView {
  readonly id: string
  readonly kind: ClockKind
  readonly label: string
  readonly text: string
  readonly value_ms: number
  readonly limit_ms?: number
  /** `down` runs to zero, `up` counts since the start. */
  readonly direction: 'up' | 'down'
  readonly state: 'running' | 'nearlyUp' | 'up' | 'done'
  /**
   * In words, so that the state never rests on color: "0:15 left", "over by 0:12", or "of 0:30 to go", which stands
   * behind the figures.
   */
  readonly says: string
}

export interface RackTubeView {
  readonly id: string
  readonly name: string
  readonly closure: string
  /** Blood to fill in, mL. */
  readonly fill_mL: number
  readonly status: TubeStatus
  readonly statusText: string
  /** Place in the order of draw, from 1. */
  readonly number: number
  /** Its tests in few letters; what it is for where it has none. */
  readonly tests: string
  readonly handling: readonly { readonly mark: Handling; readonly words: string }[]
  /** Such a tube was lost before, and this one is drawn in its place. */
  readonly isRedrawn: boolean
  readonly isDiscard: boolean
  readonly shape: TubeShape
  readonly nominal_mL: number
  /** 0 where any amount will do. */
  readonly least_mL: number
  /** Blood in it, mL, as it was said; absent where it came off short and nobody said how much. */
  readonly blood_mL?: number
  readonly filling?: FillingView
}

/** An arm as it stands for a puncture. */
export interface ArmView {
  /** Not the arm but its finger, or the heel of that side. */
  readonly skin?: SkinPlace
  readonly arm: Arm
  /** `Left arm`. */
  readonly name: string
  /** That it is closed, and why; of an arm that somebody decided to use all the same, that too. */
  readonly closed?: string
}

/** The draw so far along the ruler on top of it. */
export interface RulerView {
  /** `tube 4 of 6`. */
  readonly where: string
  readonly marks: readonly RulerMarkView[]
}

export interface RulerMarkView {
  /** Of the entry it stands for. */
  readonly seq: number
  readonly look: 'band' | 'over' | 'needle' | 'tube' | 'trouble' | 'plain'
  readonly text: string
  readonly closure?: string
  /** It goes on now. */
  readonly isOpen?: true
}

/** A tube that is on the needle and fills by the clock: a guess until a person says that it is full. */
export interface FillingView {
  /** Names this filling, so that another one begins anew. */
  readonly id: string
  readonly elapsed_ms: number
  /** Until it is expected to be as full as planned. */
  readonly length_ms: number
  /** Blood does not come as it should: the level stands where it stood then. */
  readonly isHeld: boolean
}

export interface StepView {
  readonly id: StepId
  readonly title: string
  /** One instruction, spoken and shown. */
  readonly instruction: string
  /** What it is about, where the instruction alone does not tell: which tube, for which tests, how handled. */
  readonly about?: string
  /** Short reminders and cautions below it, those of this patient and this tube first. */
  readonly points: readonly string[]
  /** How many of them stand on the screen at once; the rest comes with "say again". */
  readonly shown_n: number
}

export interface SevereView {
  readonly kind: ExceptionKind
  readonly title: string
  /** What is to be done next, one thing. */
  readonly instruction: string
  readonly points: readonly string[]
  /** What has to be off, out and away, in that order, each as it stands. */
  readonly checklist: readonly { readonly text: string; readonly isDone: boolean }[]
  /** Something is still on the arm or in it: the whole screen says so. Afterwards the alarm is a heading. */
  readonly isUrgent: boolean
}

export interface HeardView {
  readonly text: string
  readonly outcome: 'accepted' | 'refused' | 'unclear' | 'again'
  readonly at_ms: number
}

export interface ListeningView {
  readonly state: SpeechState
  readonly level: number
  /** What to do about it, in words; absent when all is well. */
  readonly advice?: string
  /** The ears are held open: what is said acts amid other talk as well. */
  readonly isHeld?: true
}

export interface AskView {
  /** The few words that are asked aloud. */
  readonly large: string
  /** The whole question. */
  readonly question: string
  readonly yes: ChoiceView
  readonly no: ChoiceView
  /** Other answers, where there are some. */
  readonly others: readonly ChoiceView[]
}

/** Something to be told once, until the next thing happens. */
export interface Notice {
  readonly tone: 'info' | 'warn'
  readonly text: string
  /** The few words of it that take the place of the instruction; without them it is a line of its own. */
  readonly large?: string
  /** The words with a code that are spoken for it where patients listen. */
  readonly coded?: string
}

/** Everything the draw screen shows, ready worded. */
export interface DrawView {
  readonly drawId: string
  readonly invented: boolean
  readonly patientLine: string
  readonly identifiers: readonly { readonly label: string; readonly value: string }[]
  readonly collectorName: string
  /** What the patient is told, and in which language. */
  readonly patient: PatientView
  /** Which samples of a series this draw is: `1 h, 2 of 3, due 10:32`. */
  readonly sitting?: string
  readonly step: StepView
  readonly mainClock?: ClockView
  readonly otherClocks: readonly ClockView[]
  readonly choices: readonly ChoiceView[]
  /** The safety commands that are always open. */
  readonly always: readonly ChoiceView[]
  /** Facts that can be recorded though the step does not call for them. */
  readonly happened: readonly ChoiceView[]
  readonly severe?: SevereView
  /** The next tube would pass the blood limit: somebody named must decide. */
  readonly overLimit?: boolean
  /** Somebody was stuck: there is an exposure record to write into. */
  readonly exposure?: boolean
  readonly notice?: Notice
  /** Where patients listen: the words with a code that were spoken for what stands large. */
  readonly coded?: string
  /** Nothing is spoken: prompts are tones. */
  readonly isTonesOnly?: boolean
  /** Turns tones into words, or words into tones. */
  readonly otherVoice: ChoiceView
  readonly ask?: AskView
  /** Series with a sample before a dose of which nobody told when it is due. */
  readonly doseAsked?: string
  readonly rack: readonly RackTubeView[]
  readonly ruler: RulerView
  /** Where an arm or a vein on it is asked for: the arms to choose from, or the one that was chosen. */
  readonly arms?: readonly ArmView[]
  /** An arm is to be chosen and none may be used: somebody must decide. */
  readonly noArmLeft: boolean
  /** The needle of this puncture, as long as another may be taken. */
  readonly needleSet?: NeedleSet
  /** Labels to read back, at the labelling step. */
  readonly labels: readonly LabelView[]
  /** The laboratory's own labels are used in this draw. */
  readonly labelsBy?: 'laboratory'
  readonly heard?: HeardView
  readonly listening: ListeningView
  /** In a practice draw: the script. */
  readonly coach?: CoachView
  readonly closed?: {
    readonly outcome: Outcome
    readonly text: string
    /** Of practice: the script that it followed. */
    readonly script?: string
  }
  /** The stored record of this draw is damaged: what and where, in words. */
  readonly broken?: string
  /** Another page writes this draw: it is only shown here, and can be taken over. */
  readonly elsewhere?: ElsewhereTexts
}

/** Where a draw is written instead, in words, and what the button says that takes it over. */
export interface ElsewhereTexts {
  readonly text: string
  readonly takeOver: string
  /** Asked before it is taken from another chair, where somebody may stand with the needle in. */
  readonly ask?: { readonly question: string; readonly yes: string; readonly no: string }
}

/** What a trainee is told in a practice draw: what happens, and what to say or do now. */
export interface CoachView {
  readonly title: string
  readonly tell: readonly string[]
  readonly act: string | undefined
}

export interface LabelView {
  readonly tubeId: string
  readonly tubeName: string
  /** What the label should bear; of a laboratory's own label nothing before it was scanned. */
  readonly number: string | undefined
  readonly readBack: boolean
}
