import type { Settings } from './settings.ts'

/** The model archives that come with the app, under `models/`; the first is used where nobody chose another. */
export const SPEECH_MODELS = ['stillhand-en-0.2.tar.gz', 'stillhand-en-0.1.tar.gz'] as const
export const SHIPPED_MODEL = SPEECH_MODELS[0]

/**
 * What `modelFile` held, before there was a choice, on every device where nobody had typed another name; 0.2 took its
 * place on 2026-11-28.
 */
const DEFAULT_ONCE = 'stillhand-en-0.1.tar.gz'

/** File name of the archive that is loaded with these settings. */
export const modelOf = ({ speechModel }: Pick<Settings, 'speechModel'>): string =>
  speechModel || SHIPPED_MODEL

/** The choice that a setting of an earlier version stands for: what was there by default is no choice. */
export const choiceOf = (modelFile: unknown): unknown =>
  modelFile === DEFAULT_ONCE ? '' : modelFile

/** A plain file name: it becomes part of an address. */
export const isModelFile = (name: string): boolean =>
  /^[\w.-]{1,100}$/.test(name) && /[^.]/.test(name)
