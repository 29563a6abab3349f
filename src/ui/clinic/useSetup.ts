import type { ClinicSetupView } from '../../app/hub/setup/clinicSetupView.ts'
import { useApp } from '../shared/appContext.tsx'

export type MemberView = Extract<ClinicSetupView, { readonly kind: 'member' }>

/** A draw runs on this device: what loads the app anew waits. */
export const useIsDrawing = (): boolean => useApp((s) => s.draw !== undefined && !s.draw.closed)

export const isPassOver = ({ passEnds_ms }: MemberView, now_ms: number): boolean =>
  passEnds_ms !== undefined && passEnds_ms <= now_ms
