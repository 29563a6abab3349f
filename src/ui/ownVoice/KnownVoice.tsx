import { ownBook } from '../../app/voice/ownBook.ts'
import { wordingRows, type WordingRow } from '../../app/view/ownVoiceView.ts'
import type { OwnVoice } from '../../core/voice/ownVoice.ts'
import { aboveRoom_dB } from '../../core/voice/usualLevels.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TableHead } from '../shared/TableHead.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** What is known of one person's voice: first in words, then every number in a table. */
export function KnownVoice({ voice }: { readonly voice: OwnVoice }) {
  const { site } = useServices()
  const { texts, fill } = useTexts()
  const t = texts.ownVoice
  const rows = wordingRows(voice, site.phrases, ownBook(site.phrases, voice), site.words)
  const above_dB = aboveRoom_dB(voice.levels)
  const few_n = rows.filter(({ asked, isFew }) => isFew && asked > 0).length
  return (
    <>
      <ul className="voiceWords">
        {above_dB !== undefined && <li>{fill(t.levels, { n: voice.levels.length, above_dB })}</li>}
        {rows.map((row) => (
          <RowInWords key={`${row.key} ${row.phrase}`} row={row} />
        ))}
        {voice.never.map((key) => (
          <NeverLine key={key} of={key} />
        ))}
        {few_n > 0 && <li>{fill(t.few, { n: few_n })}</li>}
      </ul>
      {rows.length > 0 && (
        <details className="more">
          <summary>{t.show}</summary>
          <WordingTable rows={rows} />
        </details>
      )}
    </>
  )
}

function RowInWords({ row }: { readonly row: WordingRow }) {
  const { texts, fill } = useTexts()
  const t = texts.ownVoice
  const { key, label, phrase, place, isOftenTakenBack, acted, takenBack } = row
  return (
    <>
      {place === 'heardBest' && <li>{fill(t.heardBest, { label, phrase })}</li>}
      {place === 'chosen' && (
        <li>
          {fill(t.chosen, { label, phrase })} <UsualOrder of={key} />
        </li>
      )}
      {isOftenTakenBack && <li>{fill(t.often, { label, phrase, acted, takenBack })}</li>}
    </>
  )
}

function NeverLine({ of }: { readonly of: string }) {
  const { texts, fill } = useTexts()
  return (
    <li>
      {fill(texts.ownVoice.never, { label: useLabel(of) })} <UsualOrder of={of} />
    </li>
  )
}

function UsualOrder({ of }: { readonly of: string }) {
  const { ownVoice } = useActions()
  const { texts, fill } = useTexts()
  const { usual, usualOf } = texts.ownVoice
  return (
    <button
      type="button"
      className="button quiet"
      aria-label={fill(usualOf, { label: useLabel(of) })}
      onClick={() => void ownVoice.resetWording(of)}
    >
      {usual}
    </button>
  )
}

function useLabel(key: string): string {
  const labels: Readonly<Record<string, string | undefined>> = useServices().site.words.commands
  return labels[key] ?? key
}

function WordingTable({ rows }: { readonly rows: readonly WordingRow[] }) {
  const { texts, fill } = useTexts()
  const { columns, of: ofText, noCount, show } = texts.ownVoice
  const share = (count: number, of: number): string =>
    of === 0 ? noCount : fill(ofText, { count, of })
  return (
    <div className="voiceTable" role="region" aria-label={show} tabIndex={0}>
      <table>
        <TableHead columns={[columns.command, columns.wording, columns.heard, columns.takenBack]} />
        <tbody>
          {rows.map(({ key, phrase, label, asked, heard, acted, takenBack }) => (
            <tr key={`${key} ${phrase}`}>
              <th scope="row">{label}</th>
              <td>{phrase}</td>
              <td>{share(heard, asked)}</td>
              <td>{share(takenBack, acted)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
