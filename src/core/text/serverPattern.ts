/** A name or an address whole: in a content policy it stands as it is, and a star would be every host. */
const HOST = String.raw`([a-z\d-]+(\.[a-z\d-]+)*|\[[\da-f:]+\])(:\d{1,5})?`
const THIS_MACHINE = String.raw`(localhost|127\.0\.0\.1)(:\d{1,5})?`

/**
 * The address of a server that a site may name: in the clear only to this machine itself.
 * @param scheme without the `s` of its encrypted form
 * @param rest pattern of what may stand behind the server; nothing may without it
 */
export const serverPattern = (scheme: 'http' | 'ws', rest = ''): RegExp =>
  new RegExp(String.raw`^(${scheme}s:\/\/${HOST}|${scheme}:\/\/${THIS_MACHINE})${rest}$`, 'i')
