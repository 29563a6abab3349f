import { isDevicePrefix } from '../../core/protocol/drawId.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { countedDraw } from '../../core/record/countedDraw.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { createSiteKeeper } from '../site/ownSite.ts'
import { readSettings } from '../site/readSettings.ts'
import { SETTINGS_KEY, type Settings } from '../site/settings.ts'
import { keepCollector } from '../site/whoDraws.ts'
import { createEar } from '../voice/createEar.ts'
import { mayRead } from '../voice/earTrouble.ts'

type SettingsActions = Pick<
  AppActions,
  | 'testAlarm'
  | 'testEar'
  | 'hearTone'
  | 'changeSettings'
  | 'sayWhoDraws'
  | 'keepCatalogue'
  | 'forgetCatalogue'
  | 'keepPolicy'
  | 'keepLaboratories'
  | 'keepRecordSystems'
  | 'keepStock'
>

/**
 * What is set on this device, kept at once.
 * @param isBusy a draw is under way here or something is not saved: the page must keep what it has
 */
export function createSettingsActions(parts: AppParts, isBusy: () => boolean) {
  const { set, get, guarded, settingsStore, sound, stock } = parts
  const { told } = parts.site.texts.screens
  const keeper = createSiteKeeper(settingsStore, parts.site.texts.site, () =>
    parts.page.startAnew(),
  )

  const ear = createEar({
    ...parts,
    texts: parts.site.texts.voice,
    settings: () => get().settings,
    onTrouble: (trouble) => set({ earTrouble: trouble }),
  })
  parts.settingsPages?.onTold(() => void follow())

  function applySound(settings: Settings): void {
    const { volume, silent, promptVoice, tonesOnly } = settings
    sound.setVolume(volume)
    sound.setSilent(silent)
    sound.setVoice?.(promptVoice)
    if (tonesOnly) sound.hush()
    // A name is read by a voice that no ear can have.
    if (!mayRead(settings)) parts.reader.stop()
    ear.apply()
  }

  /** Another page has kept other settings: two pages that speak to different ears would not be discreet. */
  async function follow(): Promise<void> {
    const kept = await guarded(told.settingsUnread, () => settingsStore.read(SETTINGS_KEY))
    if (!kept.ok || kept.value === undefined) return
    const { value: settings, faults } = readSettings(kept.value, parts.site.texts.site)
    // As at first would be aloud, in the middle of a draw perhaps.
    if (faults.length > 0) return
    set({ settings })
    applySound(settings)
    // What somebody is writing here would be lost; the first screen takes it as well.
    if (get().screen.name === 'home') await takeLanguage()
  }

  async function keep(settings: Settings): Promise<boolean> {
    const kept = await guarded(told.settingsUnsaved, () =>
      settingsStore.write(SETTINGS_KEY, JSON.stringify(settings)),
    )
    if (kept.ok) parts.settingsPages?.tell()
    return kept.ok
  }

  /**
   * Texts are read once, so another language begins with a page that is loaded anew: never in the middle of a draw. Nor
   * while one is under way on another page, for until it is over this page would come back as it was.
   */
  async function takeLanguage(): Promise<void> {
    const isWaiting = (): boolean =>
      get().settings.language !== parts.site.texts.language.language && !isBusy()
    if (!isWaiting()) return
    const drawn = await parts.runningStore.list().catch(() => undefined)
    if (drawn?.length === 0 && isWaiting()) parts.page.startAnew()
  }

  const actions: SettingsActions = {
    testAlarm: async () => {
      const { soundTest, sound: troubles } = parts.site.texts.voice
      const outcome = await sound.test()
      if (outcome === 'played' || outcome === 'silent') return soundTest[outcome]
      const { what, advice } = troubles[outcome]
      return `${what} ${advice}`
    },
    testEar: () => ear.test(),
    hearTone: (name) => sound.chime(name),
    changeSettings: (change) => {
      const { devicePrefix } = change
      if (devicePrefix !== undefined && !isDevicePrefix(devicePrefix)) return
      const settings = { ...get().settings, ...change }
      set({ settings })
      applySound(settings)
      void keep(settings).then((isKept) => {
        if (isKept && change.language !== undefined) void takeLanguage()
      })
    },
    sayWhoDraws: (who) => {
      const change = keepCollector(who, parts.clock.read().wall_ms)
      if (!change) return parts.site.texts.screens.whoDraws.missing
      actions.changeSettings(change)
      return undefined
    },
    keepCatalogue: async (json) => {
      await guarded(told.siteUnsaved, () => keeper.keepCatalogue(json))
    },
    forgetCatalogue: async () => {
      await guarded(told.siteUnsaved, () => keeper.forgetCatalogue())
    },
    keepPolicy: async (json) => {
      await guarded(told.siteUnsaved, () => keeper.keepPolicy(json))
    },
    keepLaboratories: async (json) => {
      await guarded(told.siteUnsaved, () => keeper.keepLaboratories(json))
    },
    keepRecordSystems: async (json) => {
      await guarded(told.siteUnsaved, () => keeper.keepRecordSystems(json))
    },
    keepStock: async (lots) => {
      await guarded(told.siteUnsaved, () =>
        lots ? stock.keep(lots, parts.clock.read().wall_ms) : stock.forget(),
      )
      set({ stock: stock.current() })
    },
  }
  return {
    actions,
    /** A language that was chosen during a draw comes into use once that is over. */
    takeLanguage,
    /** What a closed draw used is taken off the stock. */
    async countDown(log: DrawLog): Promise<void> {
      const draw = countedDraw(log)
      if (!draw) return
      await guarded(told.siteUnsaved, () => stock.countDown([draw]))
      set({ stock: stock.current() })
    },
    /** So is what draws of other devices used, where the clinic shares its stock. */
    async countDownOthers(logs: readonly DrawLog[]): Promise<void> {
      const draws = logs.flatMap((log) => countedDraw(log) ?? [])
      await guarded(told.siteUnsaved, () => stock.countDownOthers(draws))
      set({ stock: stock.current() })
    },
    /** Takes over what was set on this device; a device without a prefix gets one. */
    async load(): Promise<void> {
      const kept = await guarded(told.settingsUnread, () => settingsStore.read(SETTINGS_KEY))
      const { value: settings, faults } = readSettings(
        kept.ok ? kept.value : undefined,
        parts.site.texts.site,
      )
      set(faults.length === 0 ? { settings } : { settings, trouble: faults.join(' ') })
      applySound(settings)
      await guarded(told.settingsUnread, () => stock.load())
      set({ stock: stock.current() })
      if (!settings.devicePrefix) actions.changeSettings({ devicePrefix: parts.newDevicePrefix() })
    },
  }
}
