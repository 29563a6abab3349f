import { findTube } from '../../core/catalogue/catalogue.ts'
import { LABEL_CODE, setCode } from '../../core/catalogue/otherSupplies.ts'
import { GAUGES, NEEDLE_KINDS } from '../../core/order/order.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** What a row of the stock is called: a tube by its name, a set by its kind and gauge, else by its code. */
export function useStockName(): (code: string) => string {
  const { catalogue, texts } = useServices().site
  const { supplies } = texts.day
  const { fill } = useTexts()
  const names = new Map([
    [LABEL_CODE, supplies.labels],
    ...NEEDLE_KINDS.flatMap((kind) =>
      GAUGES.map((gauge) => [setCode(kind, gauge), fill(supplies.set[kind], { gauge })] as const),
    ),
  ])
  return (code) => findTube(catalogue, code)?.name ?? names.get(code) ?? code
}
