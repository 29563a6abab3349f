import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { COLLECTING } from '../../core/order/collecting.ts'
import { ANTICOAGULANTS, ANTISEPTIC_ALLERGIES } from '../../core/order/order.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Section } from '../shared/Section.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import { DraftDay, DraftInput, DraftNumber, DraftSelect, DraftTick } from './DraftInput.tsx'
import { ErrorSummary } from './ErrorSummary.tsx'
import { OrderQuestions } from './OrderQuestions.tsx'
import { LastDoses } from './LastDoses.tsx'
import { NewbornFields } from './NewbornFields.tsx'
import { NeedleFields } from './NeedleFields.tsx'
import { MomentField } from '../shared/MomentField.tsx'
import { fieldId, useDraft } from './useDraft.ts'
import { TestPicker } from './TestPicker.tsx'
import './order.css'

const SEXES = ['', 'female', 'male'] as const
const PRIORITIES = ['routine', 'urgent', 'asap', 'stat'] as const
const ANSWERS = ['', 'no', 'yes'] as const
const SECOND_ALLERGIES = ['', ...ANTISEPTIC_ALLERGIES.filter((one) => one !== 'none')] as const
const RESTRICTIONS = ['', 'fistula', 'nodeRemoval', 'infusion', 'injury', 'other'] as const

/** From an order to a draft that the planner can read. */
export function OrderScreen() {
  const actions = useActions()
  const errors = useApp((s) => s.draftErrors)
  const invented = useApp((s) => s.draft.invented)
  const fromVein = useApp((s) => s.draft.collecting === 'venous')
  const { app, order } = useTexts().texts
  const served = useApp((s) => s.draft.served)
  const { day } = useServices().site.texts
  return (
    <Frame title={order.title} back={useToStart()}>
      {invented && (
        <p className="lead">
          <span className="tag">{app.invented}</span>
          {order.inventedAbout}
        </p>
      )}
      <OrderFile />
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          actions.makePlan()
        }}
      >
        <p className="soft requiredAbout">{order.requiredAbout}</p>
        <ErrorSummary errors={errors} />
        <OrderQuestions />
        <PatientSection />
        <Section title={order.order} about={order.orderAbout}>
          <TestPicker />
          <LastDoses />
          <NewbornFields />
          <div className="pair">
            <DraftInput field="orderNumber" label={order.orderNumber} required />
            <DraftSelect
              field="priority"
              label={order.priority}
              options={PRIORITIES}
              nameOf={(priority) => order.priorities[priority]}
            />
          </div>
          <div className="pair">
            <DraftInput field="provider" label={order.provider} />
            <DraftInput field="providerNumber" label={order.providerNumber} />
          </div>
          <div className="pair">
            <OrderedAt />
            <DraftInput field="ward" label={order.ward} />
          </div>
          <div className="pair">
            <DraftInput field="visitNumber" label={order.visitNumber} />
            <DraftInput field="bandNumber" label={order.bandNumber} hint={order.bandNumberHint} />
          </div>
        </Section>
        <Section title={order.preparation} about={order.preparationAbout}>
          <div className="pair">
            <DraftNumber field="fasted_h" label={order.fasted} hint={order.fastedHint} />
            <DraftSelect
              field="anticoagulant"
              label={order.anticoagulant}
              options={ANTICOAGULANTS}
              nameOf={(anticoagulant) => order.anticoagulants[anticoagulant]}
            />
          </div>
          <div className="pair">
            <DraftSelect
              field="latexAllergy"
              label={order.latexAllergy}
              options={ANSWERS}
              nameOf={(answer) => order.answers[answer || 'notAsked']}
            />
            <DraftSelect
              field="antisepticAllergy"
              label={order.antisepticAllergy}
              options={['', ...ANTISEPTIC_ALLERGIES]}
              nameOf={(allergy) => order.antisepticAllergies[allergy || 'notAsked']}
            />
          </div>
          <div className="pair">
            <DraftSelect
              field="faintedBefore"
              label={order.faintedBefore}
              options={ANSWERS}
              nameOf={(answer) => order.answers[answer || 'notAsked']}
            />
            <DraftSelect
              field="antisepticAllergyToo"
              label={order.antisepticAllergyToo}
              options={SECOND_ALLERGIES}
              nameOf={(allergy) => (allergy ? order.antisepticAllergies[allergy] : order.noSecond)}
            />
          </div>
        </Section>
        <ArmsSection />
        <Section title={order.needle} about={order.needleAbout}>
          <DraftSelect
            field="collecting"
            label={order.collecting}
            hint={order.collectingHint}
            options={COLLECTING}
            nameOf={(way) => order.ways[way]}
          />
          {fromVein && <NeedleFields />}
        </Section>
        <div className="formEnd">
          <button type="submit" className="button go">
            {order.plan}
          </button>
          <p className="soft">{order.planAbout}</p>
          <button type="button" className="button" onClick={() => void actions.day.addDraft()}>
            {served?.ids.length === 1 ? day.keep : day.add}
          </button>
        </div>
      </form>
    </Frame>
  )
}

function OrderFile() {
  const actions = useActions()
  const { order } = useTexts().texts
  return (
    <div className="importRow">
      <FileButton
        label={order.fromFile}
        accept=".json,.csv,application/json,text/csv"
        onFile={(file) => void actions.importOrder(file)}
      />
      <span className="soft">{order.orType}</span>
    </div>
  )
}

function PatientSection() {
  const { order } = useTexts().texts
  return (
    <Section title={order.patient} about={order.patientAbout}>
      <NameFields />
      <div className="pair">
        <DraftDay field="birthDate" label={order.birthDate} required />
        <DraftInput field="recordNumber" label={order.recordNumber} required />
      </div>
      <div className="pair">
        <DraftNumber field="weight_kg" label={order.weight} hint={order.weightHint} />
        <DraftSelect
          field="sex"
          label={order.sex}
          hint={order.sexHint}
          options={SEXES}
          nameOf={(sex) => order.sexes[sex || 'unstated']}
        />
      </div>
      <div className="pair">
        <DraftNumber
          field="haematocrit_pct"
          label={order.haematocrit}
          hint={order.haematocritHint}
        />
        <DraftNumber
          field="earlierDraws_mL"
          label={order.earlierDraws}
          hint={order.earlierDrawsHint}
        />
      </div>
    </Section>
  )
}

function OrderedAt() {
  const { draft, edit, errorOf } = useDraft()
  const { order } = useTexts().texts
  return (
    <MomentField
      id={fieldId('orderedAt')}
      label={order.orderedAt}
      error={errorOf('orderedAt')}
      value={draft.orderedAt}
      onChange={(orderedAt) => edit({ orderedAt })}
    />
  )
}

/** A label begins with the family name, and nobody can tell it from a name in one text. */
function NameFields() {
  const { order } = useTexts().texts
  const written = useApp((s) => s.draft.fullName !== '')
  const oneName = useApp((s) => s.draft.oneName)
  return (
    <>
      {written && <DraftInput field="fullName" label={order.fullName} hint={order.fullNameHint} />}
      <div className="pair">
        <DraftInput field="familyName" label={order.familyName} required />
        {!oneName && <DraftInput field="givenNames" label={order.givenNames} required />}
      </div>
      <DraftTick field="oneName" label={order.oneName} />
    </>
  )
}

function ArmsSection() {
  const { order } = useTexts().texts
  const nameOf = (restriction: OrderDraft['restrictionLeft']): string =>
    order.restrictions[restriction || 'none']
  return (
    <Section title={order.arms} about={order.armsAbout}>
      <div className="pair">
        <DraftSelect
          field="restrictionLeft"
          label={order.leftArm}
          options={RESTRICTIONS}
          nameOf={nameOf}
        />
        <DraftSelect
          field="restrictionRight"
          label={order.rightArm}
          options={RESTRICTIONS}
          nameOf={nameOf}
        />
      </div>
    </Section>
  )
}
