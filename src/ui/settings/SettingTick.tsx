import { useActions, useApp } from '../shared/appContext.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useTexts } from '../shared/useTexts.ts'

type SettingSwitch =
  | 'voiceOn'
  | 'listenBetween'
  | 'speakNames'
  | 'silent'
  | 'discreet'
  | 'tonesOnly'
  | 'speakWithoutEar'

/** One setting that is on or off. */
export function SettingTick({ name }: { readonly name: SettingSwitch }) {
  const value = useApp((s) => s.settings[name])
  const actions = useActions()
  const { settings } = useTexts().texts
  return (
    <Tick
      label={settings[name]}
      checked={value}
      onChange={(checked) => actions.changeSettings({ [name]: checked })}
    />
  )
}
