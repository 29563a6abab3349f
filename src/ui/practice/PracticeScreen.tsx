import { useState } from 'react'
import { findPractice, PRACTICE_GROUPS, practiceGroupOf } from '../../app/site/practiceGroups.ts'
import type { NamedScenario } from '../../app/site/namedScenario.ts'
import { rehearsedAt, withRehearsal } from '../../app/site/rehearsals.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { LastScore } from './LastScore.tsx'
import { Progress, useRehearsals } from './Progress.tsx'
import type { Rehearsal } from '../../app/figures/practiceProgress.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { here } from '../shared/here.ts'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import './practice.css'

/** Draws to rehearse on a made-up patient, by what they train. */
export function PracticeScreen() {
  const { scenarios } = useServices()
  const { texts, fill } = useTexts()
  const { practice } = texts
  const [typed, setTyped] = useState('')
  const rehearsals = useRehearsals()
  const found = findPractice(scenarios, typed)
  const groups = PRACTICE_GROUPS.map((group) => ({
    group,
    own: found.filter(({ scenario }) => practiceGroupOf(scenario) === group),
  })).filter(({ own }) => own.length > 0)
  return (
    <Frame title={practice.title} back={useToStart()}>
      <p className="lead">{practice.about}</p>
      <div className="practiceFind">
        <TextField label={practice.find} type="search" value={typed} onChange={setTyped} />
        <p className="soft" role="status">
          {typed.trim() !== '' && fill(practice.found, { n: found.length })}
        </p>
      </div>
      <nav className="practiceGroups" aria-label={practice.groupsTitle}>
        {groups.map(({ group, own }) => (
          <a key={group} className="button" href={`#practice-${group}`}>
            {practice.groups[group]} <span className="soft figures">{own.length}</span>
          </a>
        ))}
      </nav>
      {groups.map(({ group, own }) => (
        <section key={group} className="practiceGroup" aria-labelledby={`practice-${group}`}>
          <h2 id={`practice-${group}`} tabIndex={-1}>
            {practice.groups[group]}
          </h2>
          <ul className="bare scenarios">
            {own.map((named) => (
              <ScenarioRow
                key={named.id}
                named={named}
                own={rehearsals.filter(({ script }) => script === named.id)}
              />
            ))}
          </ul>
        </section>
      ))}
      <Progress rehearsals={rehearsals} />
    </Frame>
  )
}

interface ScenarioRowProps {
  readonly named: NamedScenario
  /** Rehearsals of it that are kept here, oldest first. */
  readonly own: readonly Rehearsal[]
}

function ScenarioRow({ named: { id, scenario }, own }: ScenarioRowProps) {
  const actions = useActions()
  const { now_ms } = useServices()
  const kept = useApp((s) => s.settings.rehearsed)
  const { texts, fill } = useTexts()
  const { practice } = texts
  const at_ms = rehearsedAt(kept).get(id)
  const start = (): void => {
    actions.changeSettings({ rehearsed: withRehearsal(kept, id, now_ms()) })
    void actions.startPractice(id)
  }
  return (
    <li>
      <div>
        <h3>{scenario.title}</h3>
        <p className="soft">{scenario.about}</p>
        {at_ms !== undefined && (
          <p className="rehearsed figures">
            {fill(practice.lastBegun, { at: dayAndTime(here(at_ms)) })}
          </p>
        )}
        <LastScore own={own} />
      </div>
      <button
        type="button"
        className="button"
        aria-label={fill(practice.startOf, { title: scenario.title })}
        onClick={start}
      >
        {practice.start}
      </button>
    </li>
  )
}
