import { rotorOf, rotorText } from '../../app/bench/rotorHere.ts'
import { tubesByDraw } from '../../app/bench/tubesByDraw.ts'
import { DEFAULT_SETTINGS } from '../../app/site/settings.ts'
import { spinDeed } from '../../core/bench/spinDeed.ts'
import type { RotorPlace, SpinRun } from '../../core/bench/spinRuns.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { BenchKey } from './BenchKey.tsx'
import { RotorPicture } from './RotorPicture.tsx'
import { BENCH_KEYS } from './useBenchKeys.ts'
import { useBenchTexts } from './useBenchTexts.ts'

/** A bench has one centrifuge or two; what comes after is laid out when its turn has come. */
const SHOWN_RUNS = 2

/** What may turn together now, where each tube stands, and which blanks balance it. */
export function SpinPanel({ runs }: { readonly runs: readonly SpinRun[] }) {
  const settings = useApp((s) => s.settings)
  const { bench, fill } = useBenchTexts()
  const rotor = rotorOf(settings)
  const { runs: t, angles } = bench
  // The key starts the first that this rotor can turn.
  const next = runs.find(({ isTooFast }) => !isTooFast)
  const isExample = JSON.stringify(rotorOf(DEFAULT_SETTINGS)) === JSON.stringify(rotor)
  return (
    <section className="benchRuns" aria-labelledby="bench-runs">
      <h2 id="bench-runs">{t.title}</h2>
      <p className="soft">
        {fill(t.rotor, { places: rotor.places, angle: angles[rotor.angle] })}.{' '}
        {isExample && t.example}
      </p>
      {runs.slice(0, SHOWN_RUNS).map((run) => (
        <RunBox
          key={run.rows.map(({ specimen }) => specimen.number).join(' ')}
          run={run}
          isNext={run === next}
        />
      ))}
      {runs.length > SHOWN_RUNS && <p>{fill(t.further, { n: runs.length - SHOWN_RUNS })}</p>}
    </section>
  )
}

function RunBox({ run, isNext }: { readonly run: SpinRun; readonly isNext: boolean }) {
  const settings = useApp((s) => s.settings)
  const actions = useActions()
  const { bench, fill } = useBenchTexts()
  const { runs: t } = bench
  const { g, min, temperature, rows, places, blanks, isTooFast, source } = run
  const deed = spinDeed(run, rotorText(settings, bench))
  const start = (): void => {
    void actions.bench.act(deed, tubesByDraw(rows))
  }
  return (
    <div className="benchRun">
      <RotorPicture places={places} />
      <div>
        <p className="benchForce figures">
          {fill(t.about, { g, min, temperature: t[temperature] })}
        </p>
        <p className="figures">
          {fill(t.speed, { rpm: deed.rpm ?? 0, radius_mm: settings.rotorRadius_mm })}
        </p>
        {isTooFast && (
          <p className="warnBox">{fill(t.tooFast, { most_rpm: settings.rotorMost_rpm })}</p>
        )}
        <p>{blanks > 0 ? fill(t.blanks, { n: blanks }) : t.noBlanks}</p>
        {!isTooFast && (
          <button
            type="button"
            className="button go"
            aria-keyshortcuts={isNext ? BENCH_KEYS.spinStarted : undefined}
            onClick={start}
          >
            {fill(t.start, { n: rows.length })}
            {isNext && <BenchKey name={BENCH_KEYS.spinStarted} />}
          </button>
        )}
        <ol className="benchPlaces figures">
          {places.map((place, nth) =>
            place.kind === 'free' ? null : (
              <li key={`place ${String(nth + 1)}`}>
                {fill(t.placeOf, { place: nth + 1, what: contentOf(place, t.blank, fill) })}
              </li>
            ),
          )}
        </ol>
        <p className="soft">{fill(t.source, { source })}</p>
      </div>
    </div>
  )
}

function contentOf(
  place: Exclude<RotorPlace, { kind: 'free' }>,
  blank: string,
  fill: ReturnType<typeof useBenchTexts>['fill'],
): string {
  if (place.kind === 'tube') return `${place.row.specimen.number} ${place.row.specimen.tube.name}`
  return fill(blank, { number: place.like.specimen.number })
}
