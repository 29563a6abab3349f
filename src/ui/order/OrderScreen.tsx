import { useActions, useApp } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { DraftInput, DraftSelect, DraftTick } from './DraftInput.tsx'
import { ErrorSummary } from './ErrorSummary.tsx'
import { OrderQuestions } from './OrderQuestions.tsx'
import { NeedleFields } from './NeedleFields.tsx'
import { Section } from '../shared/Section.tsx'
import { TestPicker } from './TestPicker.tsx'
import './order.css'

const RESTRICTIONS = [
  ['', 'None known'],
  ['fistula', 'Dialysis fistula or graft'],
  ['nodeRemoval', 'Lymph nodes removed'],
  ['infusion', 'Infusion running'],
  ['injury', 'Injury, burn or scar'],
  ['other', 'Other reason'],
] as const

/** From an order to a draft that the planner can read. */
export function OrderScreen() {
  const actions = useActions()
  const errors = useApp((s) => s.draftErrors)
  const invented = useApp((s) => s.draft.invented)
  return (
    <Frame
      title="New draw"
      back={{ label: 'Back to the start', onBack: () => void actions.go({ name: 'home' }) }}
    >
      {invented && (
        <p className="lead">
          <span className="tag">Invented</span>
          This practice, this patient and this order are made up for the demo.
        </p>
      )}
      <div className="importRow">
        <label className="button">
          Fill in from an order file
          <input
            className="visuallyHidden"
            type="file"
            accept=".json,.csv,application/json,text/csv"
            onChange={(event) => {
              const file = event.target.files?.[0]
              event.target.value = ''
              if (file) void file.text().then((text) => actions.importOrder(text))
            }}
          />
        </label>
        <span className="soft">or type it below.</span>
      </div>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          actions.makePlan()
        }}
      >
        <ErrorSummary errors={errors} />
        <OrderQuestions />
        <Section
          title="Patient"
          about="As on the order. The patient will say these again before the draw."
        >
          <DraftInput field="fullName" label="Full name" />
          <div className="pair">
            <DraftInput field="birthDate" label="Date of birth" type="date" />
            <DraftInput field="recordNumber" label="Record number" />
          </div>
          <div className="pair">
            <DraftInput
              field="weight_kg"
              label="Weight, kg"
              hint="Needed under 18: the limit on blood taken depends on it."
              inputMode="decimal"
            />
            <DraftSelect
              field="sex"
              label="Sex"
              hint="Only to estimate hematocrit when it is not known."
              options={[
                ['', 'Not stated'],
                ['female', 'Female'],
                ['male', 'Male'],
              ]}
            />
          </div>
          <div className="pair">
            <DraftInput
              field="haematocrit_pct"
              label="Hematocrit, %"
              hint="If known. It decides how much serum or plasma a tube yields."
              inputMode="decimal"
            />
            <DraftInput
              field="earlierDraws_mL"
              label="Blood already taken, mL"
              hint="In the period your policy counts."
              inputMode="decimal"
            />
          </div>
        </Section>
        <Section title="Order" about="What was asked for. The tubes are worked out from the tests.">
          <TestPicker />
          <div className="pair">
            <DraftInput field="orderNumber" label="Order number" />
            <DraftSelect
              field="priority"
              label="Priority"
              options={[
                ['routine', 'Routine'],
                ['urgent', 'Urgent'],
                ['asap', 'As soon as possible'],
                ['stat', 'Immediately (stat)'],
              ]}
            />
          </div>
          <DraftInput field="provider" label="Ordered by" />
        </Section>
        <Section
          title="Preparation"
          about="Ask the patient. The answers change the cautions and the pressure time."
        >
          <div className="pair">
            <DraftInput
              field="fasted_h"
              label="Hours since food"
              hint="Leave empty if not asked."
              inputMode="decimal"
            />
            <DraftSelect
              field="anticoagulant"
              label="Blood thinner"
              options={[
                ['none', 'None'],
                ['heparin', 'Heparin'],
                ['other', 'Other anticoagulant'],
                ['unknown', 'Not known'],
              ]}
            />
          </div>
          <div>
            <DraftTick field="latexAllergy" label="Latex allergy" />
            <DraftTick field="faintedBefore" label="Has fainted at a blood draw before" />
          </div>
        </Section>
        <Section
          title="Arms"
          about="An arm with a restriction is not offered. With both restricted, the draw stops here."
        >
          <div className="pair">
            <DraftSelect field="restrictionLeft" label="Left arm" options={RESTRICTIONS} />
            <DraftSelect field="restrictionRight" label="Right arm" options={RESTRICTIONS} />
          </div>
        </Section>
        <Section title="Needle" about="Its bore and length set how fast the tubes fill.">
          <NeedleFields />
        </Section>
        <div className="formEnd">
          <button type="submit" className="button go">
            Plan the tubes
          </button>
          <p className="soft">Nothing is started yet. You will see the tubes first.</p>
        </div>
      </form>
    </Frame>
  )
}
