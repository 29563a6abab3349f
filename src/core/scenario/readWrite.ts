import { ARMS, DECISION_SUBJECTS } from '../order/order.ts'
import { UNLABELLED_ENDS } from '../protocol/events.ts'
import { defined } from '../basics/defined.ts'
import type { Doing } from './scenario.ts'

const FORMS =
  'note ..., exposure ..., not prepared ..., decision proceed by ..., decision stop by ..., decision proceed by ... about restrictedArm on the left arm because ..., more blood by ... because ..., short 1.5 mL, tube 2, unlabelled tube 2 stayedInHand by ..., dropped tube 2, wrong tube 2, expired tube 2, handover Name, INITIALS'

/** Reads what is typed into a form of the draw screen. */
export function readWrite(words: string): Doing | string {
  const typed = (command: Extract<Doing, { kind: 'command' }>['command']): Doing => ({
    kind: 'command',
    command,
  })
  const note = /^note (.+)$/.exec(words)
  if (note) return typed({ type: 'addNote', text: note[1] ?? '' })
  const exposure = /^exposure (.+)$/.exec(words)
  if (exposure) return typed({ type: 'noteExposure', text: exposure[1] ?? '' })
  const what = /^not prepared (.+)$/.exec(words)
  if (what) return typed({ type: 'notPrepared', what: what[1] ?? '' })
  const about =
    /^decision (proceed|stop) by (.+) about (\w+?)(?: on the (left|right) arm)? because (.+)$/.exec(
      words,
    )
  const subject = DECISION_SUBJECTS.find((known) => known === about?.[3])
  if (about && subject) {
    const named = about[1] === 'stop' ? 'stop' : 'proceed'
    const [, , by = '', , side, why = ''] = about
    const arm = ARMS.find((known) => known === side)
    return typed(
      defined({ type: 'nameDecision' as const, decision: named, by, about: subject, arm, why }),
    )
  }
  const decision = /^decision (proceed|stop) by (.+)$/.exec(words)
  if (decision) {
    const named = decision[1] === 'stop' ? 'stop' : 'proceed'
    return typed({ type: 'nameDecision', decision: named, by: decision[2] ?? '' })
  }
  const [, approver, reason] = /^more blood by (.+) because (.+)$/.exec(words) ?? []
  if (approver !== undefined && reason !== undefined) {
    return typed({ type: 'approveBlood', by: approver, why: reason })
  }
  const short = /^short (\d+(?:\.\d+)?) mL$/.exec(words)
  if (short) return typed({ type: 'tubeShortBy', estimate_mL: Number(short[1]) })
  const tube = /^tube (\d+)$/.exec(words)
  if (tube) return { kind: 'tubeNamed', tube: Number(tube[1]) }
  const lost = /^(dropped|wrong|expired) tube (\d+)$/.exec(words)
  if (lost) {
    const why =
      lost[1] === 'wrong' ? 'wrongTube' : lost[1] === 'expired' ? 'expiredTube' : 'droppedTube'
    return { kind: 'lost', why, tube: Number(lost[2]) }
  }
  const bare = /^unlabelled tube (\d+) (\w+) by (.+)$/.exec(words)
  const how = UNLABELLED_ENDS.find((known) => known === bare?.[2])
  if (bare && how) return { kind: 'unlabelled', tube: Number(bare[1]), how, by: bare[3] ?? '' }
  const over = /^handover (.+), (\S+)$/.exec(words)
  if (over) {
    const initials = over[2] ?? ''
    return typed({ type: 'handOver', to: { id: initials, name: over[1] ?? '', initials } })
  }
  return `What is written is one of: ${FORMS}.`
}
