import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { StoreApi } from 'zustand/vanilla'
import type { AppActions, AppState } from '../../app/appApi.ts'
import type { AppServices } from '../../app/appServices.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'

/** What the screens stand on; made once where the app is wired. */
export interface AppPort {
  readonly store: StoreApi<AppState>
  readonly actions: AppActions
  readonly services: AppServices
}

export const AppContext = createContext<AppPort | undefined>(undefined)

function useAppPort(): AppPort {
  const port = useContext(AppContext)
  if (!port) throw new Error('The screens need an AppContext around them.')
  return port
}

/** A part of the state; the component redraws when that part changes. */
export function useApp<T>(select: (state: AppState) => T): T {
  return useStore(useAppPort().store, select)
}

/** The log of that very draw; `undefined` while it is not read. */
export function useRecord(drawId: string): CheckedLog | undefined {
  return useApp((s) => s.records.get(drawId))
}

export function useActions(): AppActions {
  return useAppPort().actions
}

export function useServices(): AppServices {
  return useAppPort().services
}
