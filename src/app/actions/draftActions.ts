import { fillText } from '../../core/basics/fillText.ts'
import { planSittings } from '../../core/plan/planSittings.ts'
import { readText } from '../../core/text/readText.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import type { OrderDraft } from '../order/orderDraft.ts'
import { blankDraft, demoDraft, planInput } from '../order/planInput.ts'
import { readDraft } from '../order/readDraft.ts'

type DraftActions = Pick<
  AppActions,
  'startDemo' | 'newDraw' | 'editDraft' | 'makePlan' | 'approveStop' | 'importOrder'
>

/** From an order to a plan: the form, filled in by hand, from a file or with the demonstration. */
export function createDraftActions({
  set,
  get,
  site,
  stock,
  intake,
  today,
  clock,
}: AppParts): DraftActions {
  const { told } = site.texts.screens
  const noPlan = {
    plan: undefined,
    sittings: [],
    resumed: undefined,
    approvals: [],
  } as const
  const fresh = { ...noPlan, draftErrors: [], screen: { name: 'order' } } as const
  return {
    startDemo: () => set({ ...fresh, draft: demoDraft(site) }),
    newDraw: () => set({ ...fresh, draft: blankDraft(site) }),
    editDraft: (change) =>
      set({
        draft: { ...get().draft, ...change },
        draftErrors: get().draftErrors.filter(({ field }) => !(field in change)),
        ...(isOfPlan(change) && noPlan),
      }),
    makePlan: () => {
      const { draft } = get()
      const reading = readDraft(draft, today(), site.texts, site.catalogue)
      if (!reading.ok) {
        set({ draftErrors: reading.faults, ...noPlan })
        return
      }
      const input = planInput(reading.value, draft, site, today(), stock.current())
      const sittings = planSittings(input)
      const [{ plan }] = sittings
      set({ ...noPlan, plan, sittings, draftErrors: [], screen: { name: 'plan' } })
    },
    approveStop: ({ about, by, reason }) => {
      const who = readText(by, 'name')
      const why = readText(reason, 'text')
      if (!who.ok || !why.ok || who.value === '' || why.value === '') {
        return site.texts.order.approvalMissing
      }
      const at_ms = clock.read().wall_ms
      const given = { about, by: who.value, reason: why.value, at_ms }
      set({ approvals: [...get().approvals.filter((other) => other.about !== about), given] })
      return undefined
    },
    importOrder: async (file) => {
      const { draft, screen } = get()
      const reading = await intake.order(file, today())
      if (!reading.ok) {
        set({ trouble: fillText(told.orderRefused, { reasons: reading.faults.join(' ') }) })
      } else if (get().draft !== draft || get().screen !== screen) {
        // Whoever went on meanwhile must not find another patient in the form.
        set({ trouble: site.texts.order.movedOn })
      } else {
        const questions = reading.value.questions.map((text) => ({ text, confirmed: false }))
        set({ ...fresh, draft: { ...blankDraft(site), ...reading.value.draft, questions } })
      }
    },
  }
}

/** In which language the patient is spoken to is chosen on the plan, and changes nothing of it. */
const isOfPlan = (change: Partial<OrderDraft>): boolean =>
  Object.keys(change).some((field) => field !== 'patientLanguage')
