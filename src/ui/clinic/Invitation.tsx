import { code128 } from '../../app/record/code128.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import { shownJoinCode } from '../../core/hub/join/joinCode.ts'
import { Barcode } from '../labels/Barcode.tsx'
import { useActions } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import type { MemberView } from './useSetup.ts'

const BARS_mm = 18

/** A desk lets a device in: the code, large and as bars, and the question whether it may. */
export function Invitation({ view }: { readonly view: MemberView }) {
  const { clinicSetup } = useActions()
  const { clinic, fill } = useClinicTexts()
  const { invite } = clinic.setup
  const { invitation, invitedAt, hasDeskFile, isBusy } = view
  const isOpen = invitation?.isOpen ?? false
  return (
    <Section title={invite.title} about={invite.about}>
      {!hasDeskFile && <p className="warnBox">{invite.noFile}</p>}
      {invitation && isOpen && <ShownCode invitation={invitation} />}
      <div role="status">
        {invitation && !isOpen && !invitation.outcome && invitedAt === undefined && (
          <p>{invite.over}</p>
        )}
        {invitedAt !== undefined && <p>{fill(invite.elsewhere, { desk: invitedAt })}</p>}
      </div>
      {invitation?.asking && <Asking {...invitation.asking} isBusy={isBusy} />}
      {!invitation?.asking && (
        <div className="rowOfButtons">
          <button
            type="button"
            className="button"
            disabled={isBusy || !hasDeskFile}
            onClick={() => clinicSetup.invite()}
          >
            {isOpen ? invite.again : invite.show}
          </button>
          {isOpen && (
            <button
              type="button"
              className="button quiet"
              onClick={() => clinicSetup.closeInvitation()}
            >
              {invite.close}
            </button>
          )}
        </div>
      )}
    </Section>
  )
}

function ShownCode({ invitation }: { readonly invitation: NonNullable<MemberView['invitation']> }) {
  const { clinic, fill } = useClinicTexts()
  const { invite } = clinic.setup
  const { code, left_ms, tried } = invitation
  return (
    <div className="joinCode">
      <p className="visuallyHidden" id="joinCodeLabel">
        {invite.code}
      </p>
      <p className="joinCodeLetters" aria-labelledby="joinCodeLabel joinCodeValue">
        <strong id="joinCodeValue">{shownJoinCode(code)}</strong>
      </p>
      <Barcode barcode={code128(code)} name={invite.bars} height_mm={BARS_mm} />
      <p className="figures">{fill(invite.left, { time: minutesSeconds(left_ms) })}</p>
      {tried > 0 && <p>{fill(invite.tried, { n: tried })}</p>}
    </div>
  )
}

interface AskingProps {
  readonly name: string
  readonly keyName: string
  readonly isBusy: boolean
}

/** A device knows the code: the person decides. */
function Asking({ name, keyName, isBusy }: AskingProps) {
  const { clinicSetup } = useActions()
  const { clinic, fill } = useClinicTexts()
  const { invite } = clinic.setup
  return (
    <div className="clinicNews" role="alert">
      <p>
        <strong>{fill(invite.asks, { name })}</strong>
      </p>
      <p className="figures">{fill(invite.key, { key: keyName })}</p>
      <div className="rowOfButtons">
        <button
          type="button"
          className="button go"
          disabled={isBusy}
          onClick={() => void clinicSetup.admit()}
        >
          {invite.admit}
        </button>
        <button
          type="button"
          className="button stop"
          disabled={isBusy}
          onClick={() => clinicSetup.refuse()}
        >
          {invite.refuse}
        </button>
      </div>
    </div>
  )
}
