import { NOTED_MOMENTS } from '../order/sitting.ts'
import { SKIN_PLACES } from '../order/collecting.ts'
import {
  needleSetShape,
  orderShape,
  patientShape,
  preparationShape,
  recollectsShape,
} from '../log/orderShape.ts'
import { flag, listOf, number, oneOf, optional, shapeOf, text, time } from '../log/shape.ts'
import type { Shape } from '../log/shape.ts'
import type { DayEventType } from './dayEvents.ts'
import { DUE_KINDS, ORDER_SOURCES, PLACE_KINDS } from './listedOrder.ts'

const moments = Object.fromEntries(NOTED_MOMENTS.map((moment) => [moment, optional(text)]))

const listedShape = shapeOf({
  id: text,
  invented: flag,
  patient: patientShape,
  order: orderShape,
  preparation: preparationShape,
  needleSet: optional(needleSetShape),
  collecting: optional(oneOf(SKIN_PLACES)),
  moments: optional(shapeOf(moments)),
  due: optional(shapeOf({ kind: oneOf(DUE_KINDS), at_ms: time, tolerance_min: optional(number) })),
  fasting: optional(flag),
  place: optional(shapeOf({ kind: oneOf(PLACE_KINDS), text })),
  laboratory: optional(text),
  from: oneOf(ORDER_SOURCES),
  recollects: optional(recollectsShape),
  requests: optional(listOf(shapeOf({ url: text, test: optional(text) }))),
  questions: listOf(text),
})

const ids = listOf(text)
const ofOrders = shapeOf({ orderIds: ids })
const ofOrdersWhy = shapeOf({ orderIds: ids, why: optional(text) })

/** What each event of a day must carry. The type makes it a fault of the build to forget one. */
export const DAY_SHAPES: Readonly<Record<DayEventType, Shape>> = {
  orderListed: shapeOf({ order: listedShape }),
  orderChanged: shapeOf({ order: listedShape, why: optional(text) }),
  orderCalled: ofOrders,
  orderNotFound: ofOrders,
  orderPutOff: shapeOf({ orderIds: ids, until_ms: optional(time), why: text }),
  orderRefused: ofOrdersWhy,
  orderCancelled: shapeOf({ orderIds: ids, by: text, why: text }),
  orderReopened: shapeOf({ orderIds: ids, why: text, after: optional(ids) }),
  ordersTogether: ofOrdersWhy,
  ordersApart: ofOrdersWhy,
  ordersBothWanted: ofOrders,
  recordErased: shapeOf({ drawId: text, orderIds: ids }),
  benchActed: shapeOf({
    id: text,
    act: shapeOf({ type: text }),
    specimens: listOf(shapeOf({ drawId: text, tubeIds: ids })),
    at_ms: optional(time),
    missing: optional(shapeOf({ numbers: listOf(text), by: text })),
  }),
  actTakenBack: shapeOf({ act: text }),
  logContinued: shapeOf({ of: text, seq: number, fault: text }),
}
