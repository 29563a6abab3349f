import { shownNumber } from '../../core/basics/shownNumber.ts'
import { useState } from 'react'
import { correctionFor, type FillFit } from '../../core/figures/fillFit.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useFigureTexts } from './useFigureTexts.ts'
import { useSetText } from './useSetText.ts'

/** What a site accepted of its own sets, and what it may accept: always by a name, never by itself. */
export function FillCorrections({ fits }: { readonly fits: readonly FillFit[] }) {
  const actions = useActions()
  const { site } = useServices()
  const { texts, fill } = useFigureTexts()
  const setText = useSetText()
  const { correct } = texts.fills
  const inForce = new Map(site.fillCorrections.map((each) => [each.set, each]))
  const offers = fits.flatMap((fit) => {
    const factor = correctionFor(fit, inForce.get(fit.set)?.factor ?? 1)
    return factor === undefined ? [] : [{ fit, factor }]
  })
  return (
    <div className="fillCorrections noPrint">
      {[...inForce.values()].map(({ set, factor, tubes, by }) => (
        <p key={set}>
          {fill(correct.inForce, { set: setText(set), factor: shownNumber(factor, 2), tubes, by })}{' '}
          <button
            type="button"
            className="button quiet"
            onClick={() => void actions.figures.uncorrectFill(set)}
          >
            {correct.back}
          </button>
        </p>
      ))}
      {offers.map(({ fit, factor }) => (
        <Offer key={fit.set} fit={fit} factor={factor} />
      ))}
    </div>
  )
}

function Offer({ fit, factor }: { readonly fit: FillFit; readonly factor: number }) {
  const actions = useActions()
  const { texts, fill } = useFigureTexts()
  const setText = useSetText()
  const { correct } = texts.fills
  const [by, setBy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const told = shownNumber(factor, 2)
  const accept = (): void => {
    const name = by.trim()
    setMissing(name === '')
    if (name === '') return
    void actions.figures.correctFill({ set: fit.set, factor, tubes: fit.n, by: name.slice(0, 100) })
  }
  return (
    <div className="fillOffer">
      <p>{fill(correct.offer, { set: setText(fit.set), tubes: fit.n, factor: told })}</p>
      <p className="soft">{correct.about}</p>
      <div className="dayChoice">
        <TextField
          label={correct.by}
          value={by}
          onChange={setBy}
          error={isMissing ? correct.byMissing : undefined}
        />
        <button type="button" className="button" onClick={accept}>
          {fill(correct.accept, { factor: told })}
        </button>
      </div>
    </div>
  )
}
