import { openingOf } from '../../core/record/openingOf.ts'
import { calendarDate } from '../../core/time/format.ts'
import { playScript } from '../../core/scenario/playScript.ts'
import { scorePractice, type PracticeScore } from '../../core/scenario/scorePractice.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { planAgain } from '../draw/planAgain.ts'
import type { NamedScenario } from '../site/namedScenario.ts'
import type { SiteData } from '../site/siteData.ts'

/** A rehearsed draw with the script it followed and what it came to. */
export interface ScoredPractice {
  readonly script: string
  readonly title: string
  readonly score: PracticeScore
}

/** Scores a draw by the script it names; `undefined` of a patient's draw, and where the script is not known here. */
export type ScorePracticeDraw = (log: DrawLog) => ScoredPractice | undefined

/** The script is played on the opening of that very draw, so that its tubes are those of the draw. */
export function createScorePracticeDraw(
  site: SiteData,
  scenarios: readonly NamedScenario[],
  sha256: Sha256,
): ScorePracticeDraw {
  return (log) => {
    const opening = openingOf(log)
    const named = scenarios.find(({ id }) => id === opening.script)
    if (!opening.invented || !named) return undefined
    const { id: script, scenario } = named
    const at = log.entries[0]?.at
    const number = opening.sitting?.parts[0]?.number ?? 1
    const own = scenario.later?.[number - 2] ?? scenario
    const today = at ? calendarDate(at) : ''
    const model = playScript(own, opening, sha256, at, (s) => planAgain(s, site, today, undefined))
    return { script, title: scenario.title, score: scorePractice(log, model) }
  }
}
