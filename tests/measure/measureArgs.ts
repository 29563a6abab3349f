import { InputFault } from './measureInput.ts'

export const USAGE = `Usage: npm run --silent voice:measure -- DIR [--phrases FILE] [--snr DB --noise FILE] [--suppress] [--stock] [--compare MODEL] [--fast] [--json]
  DIR        16 kHz mono WAV files and labels.csv with the columns file,text and perhaps step; empty text: nothing may happen
  --phrases  one phrase a line, all open at once, in place of the app's own phrases
  --snr      mixes noise in at this signal-to-noise ratio, dB; --noise is a 16 kHz WAV file of it
  --suppress everything, noise and all, goes through a noise suppressor (RNNoise) before it is heard; latency has its delay in it
  --stock    the same recordings also through a plain use of the engine: every phrase open, only the final result acts
  --compare  the same recordings, in the same run, also with this model: a file under models/, or its version (0.1)
  --fast     as fast as possible instead of at the pace of speech; latency is then in audio time
  --json     everything, with each recording, as JSON
  --rows     names the recordings that did not go right`

export interface MeasureArgs {
  readonly dir: string
  readonly phrases: string | undefined
  readonly snr_dB: number | undefined
  readonly noise: string | undefined
  /** Through a noise suppressor before anything hears it. */
  readonly suppress: boolean
  readonly stock: boolean
  /** File name of another model under `models/`. */
  readonly compare: string | undefined
  readonly fast: boolean
  readonly json: boolean
  readonly rows: boolean
}

/** @throws InputFault with what is wrong in one sentence */
export function measureArgs(args: readonly string[]): MeasureArgs {
  const values = new Map<string, string>()
  const flags = new Set<string>()
  const dirs: string[] = []
  for (let i = 0; i < args.length; i++) {
    const arg = args[i] ?? ''
    if (['--phrases', '--snr', '--noise', '--compare'].includes(arg)) {
      const value = args[++i]
      if (value === undefined) throw new InputFault(`${arg} needs a value.`)
      values.set(arg, value)
    } else if (['--suppress', '--stock', '--fast', '--json', '--rows'].includes(arg)) flags.add(arg)
    else if (arg.startsWith('--')) throw new InputFault(`There is no option ${arg}.`)
    else dirs.push(arg)
  }
  const [dir, ...more] = dirs
  if (dir === undefined || more.length > 0) throw new InputFault('Name one folder of recordings.')
  const snr = values.get('--snr')
  const noise = values.get('--noise')
  if ((snr === undefined) !== (noise === undefined))
    throw new InputFault('--snr and --noise belong together.')
  const snr_dB = snr === undefined ? undefined : Number(snr)
  if (snr_dB !== undefined && !Number.isFinite(snr_dB))
    throw new InputFault(`--snr must be a number of dB, not "${snr ?? ''}".`)
  return {
    dir,
    phrases: values.get('--phrases'),
    snr_dB,
    noise,
    suppress: flags.has('--suppress'),
    stock: flags.has('--stock'),
    compare: modelNamed(values.get('--compare')),
    fast: flags.has('--fast'),
    json: flags.has('--json'),
    rows: flags.has('--rows'),
  }
}

/** A version of our own model stands for its file. */
const modelNamed = (name: string | undefined): string | undefined =>
  name !== undefined && /^\d+\.\d+$/.test(name) ? `stillhand-en-${name}.tar.gz` : name
