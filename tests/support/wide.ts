/**
 * The wide run (`STILLHAND_WIDE=1 npm test`) also does what takes long: the soak, the wide walk, and draws that wait as
 * long as the shipped limits say.
 */
export const WIDE = process.env['STILLHAND_WIDE'] === '1'
