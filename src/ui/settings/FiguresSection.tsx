import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { Tick } from '../shared/Tick.tsx'

/** Whether figures are told by person. */
export function FiguresSection() {
  const byPerson = useApp((s) => s.settings.figuresByPerson)
  const actions = useActions()
  const { people } = useServices().site.texts.figures
  return (
    <Section title={people.settingTitle} about={people.settingAbout}>
      <Tick
        label={people.setting}
        checked={byPerson}
        onChange={(checked) => actions.changeSettings({ figuresByPerson: checked })}
      />
    </Section>
  )
}
