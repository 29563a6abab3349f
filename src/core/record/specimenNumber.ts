/**
 * The number on a tube's label, from the draw's and the tube's own ids: `D7-20261125-0003` and `t2` give
 * `D7-261125-0003-02`. Unique across devices because a draw's id begins with its device's prefix.
 */
export function specimenNumber(drawId: string, tubeId: string): string {
  const [prefix = '', date = '', count = ''] = drawId.split('-')
  return `${prefix}-${date.slice(2)}-${count}-${tubeId.replace(/^t/, '').padStart(2, '0')}`
}
