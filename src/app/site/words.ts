/** The words of the screens for one language, as the words data file holds them. */
export interface Words {
  readonly language: string
  readonly caution: string
  readonly steps: Readonly<Record<string, StepWords | undefined>>
  readonly commands: Readonly<Record<string, string | undefined>>
  readonly exceptions: Readonly<Record<string, ExceptionWords | undefined>>
  readonly flags: Readonly<Record<string, string | undefined>>
  readonly impossible: Readonly<Record<string, string | undefined>>
  readonly asks: Readonly<Record<string, string | undefined>>
  readonly clocks: Readonly<Record<string, string | undefined>>
  readonly tubeStatus: Readonly<Record<string, string | undefined>>
  readonly handling: Readonly<Record<string, string | undefined>>
  readonly outcomes: Readonly<Record<string, string | undefined>>
}

export interface StepWords {
  readonly title: string
  /** A limit of the site stands in them as `{bandage_min}`. */
  readonly points: readonly string[]
}

export interface ExceptionWords extends StepWords {
  readonly instruction: string
}

/** Spoken texts by key, as the prompts data file holds them. */
export interface Prompts {
  readonly language: string
  readonly prompts: Readonly<Record<string, string | undefined>>
  /** What stands on the screen where a prompt is spelled for the voice. */
  readonly shown?: Readonly<Record<string, string | undefined>>
}
