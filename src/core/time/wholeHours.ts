/** Hours of a length that is told in hours: two or more and nothing over; `undefined` where minutes tell it. */
export const wholeHours = (length_min: number): number | undefined =>
  length_min >= 120 && length_min % 60 === 0 ? length_min / 60 : undefined
