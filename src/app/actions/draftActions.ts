import { fillText } from '../../core/basics/fillText.ts'
import { planDraw } from '../../core/plan/planDraw.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { blankDraft, demoDraft, planInput } from '../order/planInput.ts'
import { readDraft } from '../order/readDraft.ts'

type DraftActions = Pick<
  AppActions,
  'startDemo' | 'newDraw' | 'editDraft' | 'makePlan' | 'importOrder'
>

/** From an order to a plan: the form, filled in by hand, from a file or with the demonstration. */
export function createDraftActions({
  set,
  get,
  site,
  stock,
  intake,
  today,
}: AppParts): DraftActions {
  const { told } = site.texts.screens
  const fresh = { draftErrors: [], plan: undefined, screen: { name: 'order' } } as const
  return {
    startDemo: () => set({ ...fresh, draft: demoDraft(site) }),
    newDraw: () => set({ ...fresh, draft: blankDraft(site) }),
    editDraft: (change) =>
      set({
        draft: { ...get().draft, ...change },
        draftErrors: get().draftErrors.filter(({ field }) => !(field in change)),
        plan: undefined,
      }),
    makePlan: () => {
      const { draft } = get()
      const reading = readDraft(draft, today(), site.texts)
      if (!reading.ok) {
        set({ draftErrors: reading.faults, plan: undefined })
        return
      }
      const plan = planDraw(planInput(reading.value, draft, site, today(), stock.current()))
      set({ plan, draftErrors: [], screen: { name: 'plan' } })
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
