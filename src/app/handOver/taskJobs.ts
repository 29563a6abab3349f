import type { DayItem } from '../../core/day/dayList.ts'
import { requestsAt } from '../../core/handOver/requestId.ts'
import { orderTask, type TaskTexts } from '../../core/handOver/orderTask.ts'
import { canonicalJson } from '../../core/log/canonicalJson.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { missingText } from '../../core/record/missingText.ts'
import { noteWords } from '../../core/record/noteWords.ts'
import type { SiteData } from '../site/siteData.ts'
import { testInfo } from '../record/testInfo.ts'
import { followersOf } from './followersOf.ts'
import type { HandOverJob } from './handOverJob.ts'

interface TaskJobDeps {
  readonly sha256: Sha256
  readonly site: Pick<SiteData, 'recordTexts' | 'catalogue' | 'recordSystems'>
  readonly texts: TaskTexts
  /** Base address of the server that is set: what was fetched from another one is not told to this one. */
  readonly server: string
  /** Only the device that listed an order tells of it. */
  readonly devicePrefix: string
  /** Orders whose tubes are being planned, by their ids. */
  readonly planned: readonly string[]
}

/** How orders stand that were fetched from the record server, one Task for each of their requests. */
export function taskJobs(items: readonly DayItem[], deps: TaskJobDeps): readonly HandOverJob[] {
  const byId = new Map(items.map((item) => [item.order.id, item]))
  const isOurs = ({ order }: DayItem): boolean => order.id.startsWith(`${deps.devicePrefix}-`)
  return items.filter(isOurs).flatMap((item) =>
    requestsAt(item.order, deps.server).flatMap((request) => {
      // From then on what was listed last tells how it stands.
      const standing = followersOf(item, request.test, byId).at(-1) ?? item
      const job = taskJob(standing, request, item, deps)
      return job ? [job] : []
    }),
  )
}

function taskJob(
  standing: DayItem,
  request: NonNullable<DayItem['order']['requests']>[number],
  { order, item }: DayItem,
  { sha256, site, texts, devicePrefix: device, planned }: TaskJobDeps,
): HandOverJob | undefined {
  const words = noteWords(site.recordTexts.note, item.listed, testInfo(site.catalogue).testName)
  const task = orderTask(
    {
      ...{ device, order, item: { ...standing.item, listed: item.listed } },
      ...{ status: standing.status, isPlanned: planned.includes(standing.order.id) },
    },
    request,
    texts,
    (missing) => `${words.testName(missing.test)}: ${missingText(missing, words)}`,
    site.recordSystems.base,
  )
  if (!task) return undefined
  const body = canonicalJson(task.resource)
  const hash = sha256(body)
  return {
    key: `task/${request.url}`,
    kind: 'task',
    about: order.id,
    mark: hash,
    make: () =>
      Promise.resolve({
        kind: 'ready',
        hash,
        body,
        send: (server) => server.put(task.search, body),
      }),
  }
}
