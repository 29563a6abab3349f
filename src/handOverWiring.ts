import { createBrowserServerKey } from './adapters/crypto/serverKey.ts'
import { createFetchRecordServer } from './adapters/fhir/fetchRecordServer.ts'
import { eitherAccess, NO_ACCESS } from './adapters/fhir/noAccess.ts'
import { accessFaultOf } from './adapters/fhir/smart/authorization.ts'
import { createBackendAccess } from './adapters/fhir/smart/backendAccess.ts'
import {
  beginLaunch,
  endLaunch,
  type Landed,
  type LaunchPage,
} from './adapters/fhir/smart/launch.ts'
import { createLaunchAccess } from './adapters/fhir/smart/launchAccess.ts'
import type { LaunchStep } from './adapters/fhir/smart/launchStep.ts'
import { quietFetch } from './adapters/fhir/smart/quietFetch.ts'
import type { Connected } from './app/site/handOverDeps.ts'
import type { HandOverLimits } from './app/site/handOverLimits.ts'
import type { RecordServerFile } from './app/site/recordServerFile.ts'
import type { AccessFault } from './core/handOver/accessFault.ts'
import type { Clock } from './ports/clock.ts'
import type { ServerAccess } from './ports/serverAccess.ts'

/** Joins the parts for the site's record server. Loaded only where a site has one: it brings the login's library. */

export interface HandOverWiringDeps {
  readonly clock: Clock
  readonly limits: HandOverLimits
  readonly step: LaunchStep
  readonly page: LaunchPage
  /** A draw is under way: the page must not be left. Answers once it is known. */
  readonly isBusy: () => Promise<boolean>
}

export async function wireHandOver(
  file: RecordServerFile,
  deps: HandOverWiringDeps,
): Promise<Connected> {
  const { clock, limits } = deps
  const { address, backend, launch } = file
  const key = createBrowserServerKey()
  const call = quietFetch(clock, limits.answerWait_s, fetch.bind(globalThis))
  const launched = launch
    ? await launchNow(deps, { ...{ address, clock, call }, login: launch })
    : {}
  const { landed, fault, isLeaving = false } = launched
  const byLaunch =
    launch &&
    createLaunchAccess({ ...{ address, clock, call }, login: launch, landed: landed?.held })
  const byKey =
    backend &&
    createBackendAccess({ ...{ address, clock, call }, login: backend, key: () => key.named() })
  let patient = landed?.patient
  return {
    server: createFetchRecordServer({
      ...{ address, clock },
      access: accessOf(byLaunch, byKey),
      patience_s: limits.answerWait_s,
      most_B: limits.mostAnswer_MB * 1_000_000,
    }),
    launchFault: fault,
    isLeaving,
    takePatient: () => {
      const taken = patient
      patient = undefined
      return taken
    },
    publicKeys: () => (backend ? key.publicKeys() : Promise.resolve(undefined)),
  }
}

function accessOf(byLaunch: ServerAccess | undefined, byKey: ServerAccess | undefined) {
  if (byLaunch && byKey) return eitherAccess(byLaunch, byKey)
  return byLaunch ?? byKey ?? NO_ACCESS
}

/** Goes on with a launch, if this page comes from a chart. */
async function launchNow(
  { step, page, isBusy }: HandOverWiringDeps,
  options: Parameters<typeof endLaunch>[1],
): Promise<{
  readonly landed?: Landed
  readonly fault?: AccessFault
  readonly isLeaving?: boolean
}> {
  try {
    if (step === 'begin' && (await isBusy())) {
      // A reload in the middle of the draw is not to come back to it.
      page.clearQuestion()
      return { fault: 'drawing' }
    }
    if (step === 'begin') {
      await beginLaunch(page, options)
      return { isLeaving: true }
    }
    return step === 'end' ? { landed: await endLaunch(page, options) } : {}
  } catch (error) {
    return { fault: accessFaultOf(error) }
  }
}
