import type { ReactNode } from 'react'
import { SelectField } from '../shared/SelectField.tsx'
import type { Settings } from '../../app/site/settings.ts'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { RangeField } from '../shared/RangeField.tsx'
import { Section } from '../shared/Section.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import { LockSection } from '../lock/LockSection.tsx'
import { RecordsSection } from '../lock/RecordsSection.tsx'
import { ClinicSection } from '../clinic/ClinicSection.tsx'
import { WhoDraws } from '../whoDraws/WhoDraws.tsx'
import { HandOverSection } from '../handOver/HandOverSection.tsx'
import { DiscreetSection } from './DiscreetSection.tsx'
import { OwnVoice } from '../ownVoice/OwnVoice.tsx'
import { FiguresSection } from './FiguresSection.tsx'
import { HeldSection } from './HeldSection.tsx'
import { KnownKeys } from './KnownKeys.tsx'
import { PhraseCheck } from './PhraseCheck.tsx'
import { AlarmTest } from './AlarmTest.tsx'
import { ModelChoice } from './ModelChoice.tsx'
import { PrefixField } from './PrefixField.tsx'
import { RecordServerSection } from './RecordServerSection.tsx'
import { RotorSection } from './RotorSection.tsx'
import { ScannerSection } from './ScannerSection.tsx'
import { SettingTick } from './SettingTick.tsx'
import { LanguageSection } from './LanguageSection.tsx'
import './settings.css'

const PAPERS: readonly Settings['paper'][] = ['letter', 'A4']

function PaperSelect() {
  const paper = useApp((s) => s.settings.paper)
  const actions = useActions()
  const { settings } = useTexts().texts
  return (
    <SelectField
      label={settings.paper}
      options={PAPERS}
      nameOf={(each) => settings.papers[each]}
      value={paper}
      onChange={(each) => actions.changeSettings({ paper: each })}
    />
  )
}

const LABELS_BY: readonly Settings['labelsBy'][] = ['app', 'laboratory']

function LabelsSelect() {
  const labelsBy = useApp((s) => s.settings.labelsBy)
  const actions = useActions()
  const { settings } = useTexts().texts
  return (
    <SelectField
      label={settings.labelsBy}
      hint={settings.labelsByHint}
      options={LABELS_BY}
      nameOf={(each) => settings.labelsFrom[each]}
      value={labelsBy}
      onChange={(each) => actions.changeSettings({ labelsBy: each })}
    />
  )
}

function Volume() {
  const volume = useApp((s) => s.settings.volume)
  const actions = useActions()
  const { texts, fill } = useTexts()
  return (
    <RangeField
      label={fill(texts.settings.volume, { percent: Math.round(volume * 100) })}
      value={volume}
      onChange={(each) => actions.changeSettings({ volume: each })}
    />
  )
}

interface GroupProps {
  readonly id: 'collector' | 'site' | 'technician'
  readonly children: ReactNode
}

/** Settings of one kind of person, who looks for no others. */
function Group({ id, children }: GroupProps) {
  const { groups } = useTexts().texts.settings
  return (
    <section className="settingsGroup" aria-labelledby={`settings-${id}`}>
      <h2 id={`settings-${id}`}>{groups[id]}</h2>
      {children}
    </section>
  )
}

/** What is set on this device, by who sets it: whoever draws, the site, whoever looks after the device. */
export function SettingsScreen() {
  const { settings } = useTexts().texts
  return (
    <Frame title={settings.title} back={useToStart()}>
      <p className="lead">{settings.about}</p>
      <div className="settingsBody">
        <ForCollector />
        <ForSite />
        <ForTechnician />
      </div>
    </Frame>
  )
}

function ForCollector() {
  const { reader } = useServices()
  const { settings, ownVoice } = useTexts().texts
  return (
    <Group id="collector">
      <LanguageSection />
      <Section title={settings.person} about={settings.personAbout}>
        <WhoDraws />
      </Section>
      <Section title={settings.sound} about={settings.soundAbout}>
        <SettingTick name="voiceOn" />
        <SettingTick name="listenBetween" />
        <p className="soft">{settings.listenBetweenAbout}</p>
        <SettingTick name="speakNames" />
        <p className="soft">{reader.isThere() ? settings.speakNamesAbout : settings.noReader}</p>
        <Volume />
        <SettingTick name="silent" />
        <AlarmTest />
      </Section>
      <DiscreetSection />
      <Section title={ownVoice.title} about={ownVoice.about}>
        <OwnVoice />
      </Section>
      <HeldSection />
    </Group>
  )
}

function ForSite() {
  const { settings } = useTexts().texts
  return (
    <Group id="site">
      <Section title={settings.paperAndLabels} about={settings.paperAbout}>
        <PaperSelect />
        <LabelsSelect />
      </Section>
      <FiguresSection />
      <RotorSection />
      <LockSection />
      <RecordsSection />
      <RecordServerSection />
      <ClinicSection />
      <HandOverSection />
    </Group>
  )
}

function ForTechnician() {
  const devicePrefix = useApp((s) => s.settings.devicePrefix)
  const device = useDeviceTexts()
  const actions = useActions()
  const { settings } = useTexts().texts
  const { keys } = useServices().site.texts.log
  return (
    <Group id="technician">
      <Section title={settings.listening} about={settings.listeningAbout}>
        <ModelChoice />
      </Section>
      <Section title={settings.numbers} about={settings.numbersAbout}>
        <PrefixField
          key={devicePrefix === '' ? 'none' : 'set'}
          value={devicePrefix}
          texts={device.prefix}
          onChange={(prefix) => actions.changeSettings({ devicePrefix: prefix })}
        />
      </Section>
      <ScannerSection />
      <Section title={keys.title} about={keys.about}>
        <KnownKeys />
      </Section>
      <Section title={settings.phrases} about={settings.phrasesAbout}>
        <PhraseCheck />
      </Section>
    </Group>
  )
}
