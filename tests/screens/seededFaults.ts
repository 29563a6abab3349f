import type { Measure } from './inPage/finding.ts'

/** A page with one thing wrong, for each measure that a single page can be held to. */
export interface SeededFault {
  readonly measure: Measure
  /** What stands in the page. */
  readonly html: string
  /** A word of the element that must be named. */
  readonly names: string
}

const button = (text: string, style = ''): string =>
  `<button class="${text}" style="width:200px;height:120px;border:2px solid #333;background:#fff;color:#111;${style}">${text}</button>`
const at = (left: number, top: number): string => `position:absolute;left:${left}px;top:${top}px;`

// prettier-ignore
export const SEEDED_FAULTS: readonly SeededFault[] = [
  { measure: 'covered', names: 'under', html: `${button('under', at(50, 50))}<div style="${at(180, 120)}width:200px;height:100px;background:#eee"></div>` },
  { measure: 'covered', names: 'clear', html: `${button('clear', at(50, 50))}<div style="${at(0, 0)}width:400px;height:400px;opacity:0"></div>` },
  { measure: 'covered', names: 'low', html: `<div role="dialog" style="height:300px;overflow:auto">${button('low')}<div style="margin-top:-60px;position:relative;height:100px;background:#eee"></div></div>` },
  { measure: 'outside', names: 'off', html: button('off', at(1100, 50)) },
  { measure: 'outside', names: 'deep', html: button('deep', at(50, 760)) },
  { measure: 'scrolled', names: 'list', html: '<div class="list" style="height:60px;overflow:auto"><p style="margin:80px 0">Take the band off now</p></div>' },
  { measure: 'cut', names: 'instruction', html: '<div style="height:60px;overflow:auto"><p data-part="instruction" style="font-size:60px;line-height:60px">Take the band<br>off now</p></div>' },
  { measure: 'cut', names: 'hidden', html: '<div style="width:120px;overflow:hidden"><p class="hidden" style="width:400px;white-space:nowrap">Take the band off now, then press</p></div>' },
  { measure: 'cut', names: 'low', html: '<div style="height:20px;overflow:hidden"><p class="low" style="font-size:30px;line-height:40px">Take the band off</p></div>' },
  { measure: 'cut', names: 'dots', html: '<p class="dots" style="width:120px;overflow:hidden;text-overflow:ellipsis;white-space:nowrap">Take the band off now, then press</p>' },
  { measure: 'cut', names: 'tile', html: '<button style="width:100px;height:100px;padding:0;border:1px solid #333"><span class="tile" style="white-space:nowrap">pause the draw for now</span></button>' },
  { measure: 'cut', names: 'far', html: `<p class="far" style="position:fixed;left:1100px;top:40px;white-space:nowrap">Take the band off now</p>` },
  { measure: 'coveredText', names: 'lid', html: `<p class="lid">Take the band off now</p><div style="${at(0, 0)}width:600px;height:80px;background:#fff;pointer-events:none"></div>` },
  { measure: 'overlap', names: 'feet', html: `<p class="feet" style="${at(40, 40)}font-size:80px;line-height:80px">0:59</p><p class="left" style="${at(40, 85)}font-size:30px">0:59 left</p>` },
  { measure: 'tall', names: 'html', html: '<div style="height:900px"></div>' },
  { measure: 'wide', names: 'html', html: '<div style="width:1400px;height:10px"></div>' },
  { measure: 'contrast', names: 'pale', html: '<p class="pale" style="color:#aaa">Take the band off now</p>' },
  { measure: 'contrast', names: 'faded', html: '<div style="opacity:0.4"><p class="faded" style="color:#111">Take the band off now</p></div>' },
  { measure: 'contrast', names: 'onBar', html: `<div style="${at(0, 40)}width:400px;height:60px;background:#222"></div><p class="onBar" style="${at(10, 50)}color:#333">Take the band off now</p>` },
  { measure: 'contrast', names: 'drawn', html: '<svg width="300" height="80" style="overflow:visible"><rect width="300" height="80" fill="#fff"/><text class="drawn" x="10" y="40" fill="#ccc">4 ammonia</text></svg>' },
  { measure: 'edge', names: 'cream', html: button('cream', `${at(50, 50)}border-color:#f7f2e4;background:#fbf7ec;`) },
  { measure: 'target', names: 'small', html: button('small', 'height:80px;') },
]

/** The same things as they should be: nothing may be found here. */
export const SOUND_PAGE = `
  <p data-part="instruction" style="margin:10px 60px;font-size:60px;line-height:60px">Take the band off now</p>
  <p style="margin:10px 60px">Take the band off now, then press</p>
  <div style="display:flex;gap:10px;margin:10px 60px">${button('one')}${button('two')}
    <label style="display:block;width:120px;height:120px"><input type="checkbox">three</label></div>
  <span class="visuallyHidden">for a reader of screens</span>
  <div style="height:60px;overflow:auto;margin:10px 60px"><p style="margin:0;height:400px">a list that scrolls</p></div>`
