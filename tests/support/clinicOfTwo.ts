import { closedHub, type ClosedHub } from './closedHub.ts'
import { openTablet, serveWithHub, type Tablet } from './e2eClinic.ts'
import { allThere } from './e2eHubDay.ts'
import type { ServedApp } from './e2eSite.ts'
import { connected } from './hubRig.ts'
import { nodeDesk, type NodeDesk } from './nodeDesk.ts'
import type { Hub } from '../../src/ports/hub.ts'

/** A clinic with a real hub, a desk in Node and two tablets that have joined, each a browser of its own. */
export interface ClinicOfTwo {
  readonly hub: ClosedHub
  readonly app: ServedApp
  readonly desk: NodeDesk
  /** Reads what lies at the hub. */
  readonly reader: Hub
  readonly a: Tablet
  readonly b: Tablet
  /** A tablet that has not joined; `closeFresh` closes all of them. */
  fresh(name: string): Promise<Tablet>
  closeFresh(): Promise<void>
  end(): Promise<void>
}

/** @param life_s so long the passes count that the desk signs, asked anew for each */
export async function clinicOfTwo(life_s: () => number): Promise<ClinicOfTwo> {
  const hub = await closedHub()
  const desk = await nodeDesk(hub, { life_s })
  const app = await serveWithHub(hub)
  const reader = await connected(hub.hub('R', await hub.pass('reader', 'R')))
  const open = (name: string) => openTablet(name, app, hub, { isDeaf: true })
  const [a, b] = [await open('Chair 1'), await open('Chair 2')]
  for (const tablet of [a, b]) {
    await desk.letIn(tablet)
    await allThere(tablet.page)
  }
  const others: Tablet[] = []
  const closeFresh = async (): Promise<void> => {
    for (const tablet of others.splice(0)) await close(tablet)
  }
  return {
    ...{ hub, app, desk, reader, a, b, closeFresh },
    fresh: async (name) => {
      const tablet = await open(name)
      others.push(tablet)
      return tablet
    },
    end: async () => {
      await closeFresh()
      for (const tablet of [a, b]) await close(tablet)
      await reader.stop()
      await desk.end()
      app.end()
      await hub.server.remove()
    },
  }
}

async function close(tablet: Tablet): Promise<void> {
  await tablet.browser.close()
  await tablet.line.end()
}
