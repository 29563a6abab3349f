import { LANGUAGE } from '../support/language.ts'
import type { Finding, Measure } from './inPage/finding.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

/** What is not kept on single screens, and why it is left so. */
export interface Open {
  readonly measures: readonly Measure[]
  readonly states: RegExp
  readonly sizes: readonly string[]
  readonly why: string
}

const PHONE = ['390x844']
const LYING = ['1180x820', '1280x800']

/** Where phrases are English what they mean stands below each, and the instructions are those that are spoken. */
// prettier-ignore
const SPANISH: readonly Open[] = [
  {
    measures: ['tall'],
    states: /^(straight|card)\/\d+ (handling|labels)$|^special\/(discreet|earpiece gone in an alarm|sheet in an alarm)$/,
    sizes: PHONE,
    why: 'An instruction of two lines, and what each phrase means: up to 50 px higher than a phone; the same sign.',
  },
  {
    measures: ['scrolled'],
    states: /^heel\/0 identity$/,
    sizes: LYING,
    why: 'Two lines of instruction and two of what holds for an infant: the meaning of the answers waits below their phrases.',
  },
]

// prettier-ignore
export const OPEN: readonly Open[] = [
  ...(LANGUAGE === 'es' ? SPANISH : []),
  {
    measures: ['mainMoved'],
    states: /^special\/ears (shut|open|to be held|open at .*)$/,
    sizes: ['820x1180', ...LYING],
    why: 'The bar along the lower edge lifts what stands above it; on a device that has it, at every step alike.',
  },
  {
    measures: ['tall'],
    states: /^special\/ears open at (preparation|labels)$/,
    sizes: PHONE,
    why: 'The bar takes 96 px: the page moves above it, and the sign says so. Whoever holds a phone has no elbow to spare.',
  },
  {
    measures: ['tall'],
    states: /^special\/(labels of the laboratory|over the blood limit)| (provider|wristband|colleague|unlabelled)$|^(swelling|armFinding|brightBlood) .*(find|site)$/,
    sizes: PHONE,
    why: 'Where something has to be typed the keyboard takes half of a phone: the page moves under the clock, and a sign says so.',
  },
  {
    measures: ['tall'],
    states: /^swelling at release\/\d+ (vein|set|cleanse)$|^(armFinding|brightBlood) .* vein$|^faint at release\/\d+ vein$|^(faint|needlestick) at (release|shield|labels)\/\d+ (shield|sharps|handling|bleeding|bandage|handled|labels|vein)$|^settleUnlabelled .*(vein|set|cleanse)$|^syringeHolds .*set$/,
    sizes: PHONE,
    why: 'Seven answers, or what an alarm left with all its clocks, are up to 190 px higher than a phone; the same sign.',
  },
  {
    measures: ['empty'],
    states: / at (consent|vein)\/\d+ (handled|release)$|^ask\/endDraw$/,
    sizes: [...PHONE, '820x1180', ...LYING],
    why: 'An alarm before the needle, and its end, have one sentence to say, which is as large as it can be already.',
  },
  {
    measures: ['empty'],
    states: / (latex|transfused)$|^needlestick at consent\/\d+ colleague$|^heel\/5 side$|^colleagueHere at handled\/0 colleague$|^notPrepared .* decision$|^brightBlood .* find$/,
    sizes: LYING,
    why: 'The main choice and four of the six places have no turn, and an empty place stays empty.',
  },
  {
    measures: ['cut', 'overlap', 'coveredText'],
    states: /^needlestick at release\/\d+ identity$/,
    sizes: ['820x1180'],
    why: 'First aid and its clock with an identity that was never asked: the names stand too close. To be mended.',
  },
  {
    measures: ['scrolled'],
    states: /^settleUnlabelled .* set$|^unlabelledIs .* unlabelled$/,
    sizes: ['820x1180'],
    why: 'Seven sets, or six tubes with a form below, beside a clock of 300 px: the last wait below the others, and can be said.',
  },
  {
    measures: ['scrolled'],
    states: /^unlabelled(Tube|Is) .* unlabelled$/,
    sizes: LYING,
    why: 'Six tubes to name and a form below them: each can be said, or chosen in the form, and the edge says that there is more.',
  },
]

/** The same for the screens of the day. */
// prettier-ignore
export const OPEN_SCENES: readonly Open[] = [
  {
    measures: ['scrolled'],
    states: /^plan(AskedWho|ForPatient)$/,
    sizes: ['820x1180', ...PHONE],
    why: 'The rack is drawn to scale: it moves sideways by itself, and each tube of it stands in the list below.',
  },
  {
    measures: ['scrolled'],
    states: /^figures(Few|Many|ByPerson)$/,
    sizes: ['1180x820', '820x1180', ...PHONE],
    why: 'The table beside a picture has a row a week: it moves by itself beside it, also by keys, and is printed whole.',
  },
  {
    measures: ['scrolled'],
    states: /^courier(Full|ByVoice)$/,
    sizes: PHONE,
    why: 'Six columns on a phone: the table moves sideways by itself, and number and tick stand first.',
  },
  {
    measures: ['scrolled'],
    states: /^daySupplies$/,
    sizes: PHONE,
    why: 'Six columns on a phone: the table moves sideways by itself, and what is short or expires is told above it.',
  },
  {
    measures: ['scrolled'],
    states: /^catalogueRow$/,
    sizes: ['1180x820', '820x1180', ...PHONE],
    why: '181 tests: their list moves by itself, so that what stands below can be reached; the tables of limits on a phone too.',
  },
]

/** Whether a finding is one of those that are known and left. */
export const isOpen = (
  { state, size }: Pick<ScreenMeasured, 'state' | 'size'>,
  { measure }: Pick<Finding, 'measure'>,
  open: readonly Open[] = OPEN,
): boolean =>
  open.some(
    ({ measures, states, sizes }) =>
      measures.includes(measure) && states.test(state) && sizes.includes(size),
  )
