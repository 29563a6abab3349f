import type { AppState } from '../../src/app/appApi.ts'
import type { ClinicView } from '../../src/app/hub/clinic.ts'
import type { ClinicSetupView } from '../../src/app/hub/setup/clinicSetupView.ts'
import type { TrustedDevice } from '../../src/core/hub/roster.ts'
import { FULL_DAY_ms } from './fullDay.ts'
import { STATE } from './views.ts'

const DAY_ms = 86_400_000
/** SPKI of no real key, in the form of one on P-256. */
const key = (n: number): string =>
  `3059301306072a8648ce3d020106082a8648ce3d03010703420004${String(n).repeat(128)}`

const device = (n: number, name: string, change: Partial<TrustedDevice> = {}): TrustedDevice => ({
  id: `D-${n}`,
  name,
  signingKey: key(n),
  sealingKey: key(n),
  passKey: `UPAPERPAPERPAPERPAPER${n}`,
  since_ms: FULL_DAY_ms - (30 - n) * DAY_ms,
  isDesk: false,
  ...change,
})

/** An invented clinic with two desks, a device that was cut off and one with a long name. */
const DEVICES: readonly TrustedDevice[] = [
  device(1, 'Front desk', { isDesk: true }),
  device(2, 'Chair 1'),
  device(3, 'Chair 2', { revoked_ms: FULL_DAY_ms - 2 * DAY_ms }),
  device(4, 'Bench in the laboratory, second floor'),
  device(5, 'Night desk', { isDesk: true }),
]

type Member = Extract<ClinicSetupView, { readonly kind: 'member' }>
export const MEMBER: Member = {
  kind: 'member',
  clinic: 'Invented clinic',
  isBusy: false,
  device: 'D-1',
  isDesk: true,
  hasDeskFile: true,
  hasNewPass: false,
  isRival: false,
  devices: DEVICES,
  shared: [],
  passEnds_ms: FULL_DAY_ms + 200 * DAY_ms,
}

/** Two of the four are in use, two have just come. */
const SHARED: Member['shared'] = (['catalogue', 'laboratories', 'policy', 'stock'] as const).map(
  (what, i) => ({ what, edition: 12 - i, by: 'D-1', isWaiting: i > 1, isChanged: i === 1 }),
)

export const LINK: ClinicView = {
  link: 'connected',
  since_ms: FULL_DAY_ms - 3_600_000,
  coming_n: 0,
  waiting_n: 0,
  aside: [],
  notTaken: [],
  faults: [],
}

const INVITATION = { code: '7Q2FK9MX', left_ms: 227_000, tried: 1, isOpen: true }
const clinicScreen = (
  clinicSetup: ClinicSetupView,
  clinic: ClinicView | undefined,
): Partial<AppState> => ({
  screen: { name: 'clinic' },
  clinicSetup,
  draw: undefined,
  clinic,
  settings: { ...STATE.settings, devicePrefix: 'KM47' },
  keys: { own: { publicKey: key(2), keyId: '9c1f00aa42d7e6b3' }, trusted: [] },
})

/** The clinic's screen in each way in which a device may stand to it. */
export const CLINIC_STATES = {
  clinicDesk: clinicScreen(
    {
      ...MEMBER,
      invitation: { ...INVITATION, asking: { name: 'Chair 3', keyName: '9c1f00aa42d7e6b3' } },
    },
    LINK,
  ),
  clinicCode: clinicScreen({ ...MEMBER, invitation: INVITATION }, LINK),
  clinicOutside: clinicScreen(
    {
      ...{ kind: 'none', clinic: 'Invented clinic', isBusy: false },
      told: { kind: 'joinRefused', why: 'wrongCode', tries: 1 },
    },
    undefined,
  ),
  clinicAsking: clinicScreen(
    { kind: 'none', clinic: 'Invented clinic', isBusy: true, joining: 'waiting' },
    undefined,
  ),
  clinicRefused: clinicScreen(
    {
      ...{ ...MEMBER, device: 'D-2', isDesk: false, hasDeskFile: false },
      passEnds_ms: FULL_DAY_ms - DAY_ms,
      told: { kind: 'failed', act: 'leave', fault: 'unreachable' },
      refused: { edition: 12, why: 'badSignature' },
    },
    {
      ...{ ...LINK, link: 'refused', why: 'credentials', waiting_n: 14 },
      aside: [
        {
          ...{ drawId: 'D7-20261125-0007', from_seq: 3, entries_n: 2, writer: 'Chair 1' },
          entries: [{ seq: 3 }, { seq: 4 }],
        },
      ],
      notTaken: [{ device: 'Chair 2', why: 'revoked', entries_n: 3 }],
      faults: ['full'],
      samePrefix: 'Bench',
    },
  ),
  clinicNewDesk: clinicScreen(
    { ...MEMBER, device: 'D-5', hasNewPass: true, invitedAt: 'Front desk', shared: SHARED },
    { ...LINK, link: 'alone', waiting_n: 3 },
  ),
  clinicBadFile: clinicScreen({ kind: 'badSite', faults: ['otherClinic'] }, undefined),
} satisfies Readonly<Record<string, Partial<AppState>>>
