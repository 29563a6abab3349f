import { byVoice } from './byVoice.ts'
import type { AppScore, Measured } from './measure.ts'
import type { Score } from './score.ts'

const ms = (value: number | null): string => (value === null ? '-' : `${Math.round(value)} ms`)
const share = (part: number, whole: number): string =>
  whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} %`

/** What was measured, for a person to read. */
export function reportText(measured: Measured, withRows: boolean): string {
  const { app, compared, stock, noise, suppressor } = measured
  const lines = [
    `model ${measured.model}, ${measured.pace}, ${measured.audio_s.toFixed(0)} s of sound${noise ? `, ${noise.file} at ${noise.snr_dB} dB` : ''}`,
    ...(suppressor
      ? [
          `through ${suppressor.name}, which took ${suppressor.realTimeFactor.toFixed(3)} of real time`,
        ]
      : []),
    ...appLines('app', app),
    ...(compared ? appLines(`app with ${compared.model}`, compared.app) : []),
    ...voiceLines(app, compared?.app),
    ...(stock ? scoreLines('stock', stock, stock.realTimeFactor) : []),
    ...measured.notes.map((note) => `note: ${note}`),
    ...(withRows
      ? [
          ...rowLines('app', app),
          ...(compared ? rowLines(compared.model, compared.app) : []),
          ...(stock ? rowLines('stock', stock) : []),
        ]
      : []),
  ]
  return `${lines.join('\n')}\n`
}

const appLines = (name: string, app: AppScore): readonly string[] => [
  ...scoreLines(name, app, app.realTimeFactor),
  `  load first         ${ms(app.load_ms.first)}`,
  `  load cached        ${ms(app.load_ms.cached)}`,
  `  peak memory        worker ${app.memory_MB.worker.toFixed(0)} MB, page process ${app.memory_MB.pageProcess?.toFixed(0) ?? '-'} MB`,
]

/** Each voice by itself, with both models side by side where two were run. */
function voiceLines(app: Score, compared: Score | undefined): readonly string[] {
  const others = new Map(compared ? byVoice(compared.rows) : [])
  const told = ({ right, spoken, wrong }: Score): string =>
    `${right} of ${spoken} right (${share(right, spoken)}), ${wrong} wrong`
  const voices = byVoice(app.rows)
  return voices.length === 0
    ? []
    : [
        'by voice',
        ...voices.map(([voice, one]) => {
          const other = others.get(voice)
          return `  ${voice.padEnd(18)} ${told(one)}${other ? `; compared ${told(other)}` : ''}`
        }),
      ]
}

function scoreLines(name: string, score: Score, factor: number): readonly string[] {
  const { spoken, latency_ms } = score
  const hours =
    score.unrelated_h > 0 ? ` in ${(60 * score.unrelated_h).toFixed(1)} min of unrelated sound` : ''
  return [
    `${name}`,
    `  right              ${score.right} of ${spoken} (${share(score.right, spoken)})`,
    `  wrong              ${score.wrong} (${share(score.wrong, spoken)})`,
    `  missed             ${score.missed}`,
    `  taken back         ${score.takenBack}`,
    `  false              ${score.false}${hours}${score.falsePerHour === null ? '' : `: ${score.falsePerHour.toFixed(1)} an hour`}`,
    `  latency            median ${ms(latency_ms.median)}, 95th percentile ${ms(latency_ms.p95)}`,
    `  real-time factor   ${factor.toFixed(3)}`,
  ]
}

const rowLines = (name: string, { rows }: Score): readonly string[] =>
  rows
    .filter(({ outcome }) => outcome !== 'right' && outcome !== 'quiet')
    .map(
      ({ file, text, outcome, acts, finals }) =>
        `${name} ${outcome}: ${file} "${text}" -> ${acts.map((act) => `${act.phrase}${act.takenBack ? ' (taken back)' : ''}`).join(', ') || 'nothing'} (heard: ${finals.join(' | ') || '-'})`,
    )
