/**
 * Letters of scripts in which neighbors join, and the signs that fuse consonants, as code points in hexadecimal.
 * Joining types: ArabicShaping.txt of Unicode 15.0, of the scripts still written. Viramas: combining class 9 of
 * UnicodeData.txt 14.0.
 */

/** Join on both sides. */
const DUAL_JOINING =
  '620 626 628 62A-62E 633-63F 641-647 649-64A 66E-66F 678-687 69A-6BF 6C1-6C2 6CC 6CE 6D0-6D1 ' +
  '6FA-6FC 6FF 712-714 71A-71D 71F-727 729 72B 72D-72E 74E-758 75C-76A 76D-770 772 775-777 ' +
  '77A-77F 7CA-7EA 841-845 848 84A-853 855 860 862-865 868 886 889-88D 8A0-8A9 8AF-8B0 8B3-8B8 ' +
  '8BA-8C8 1807 1820-1878 1887-18A8 18AA A840-A871 10D01-10D21 10D23 1E900-1E943'

/** Join only to the letter before them. */
const RIGHT_JOINING =
  '622-625 627 629 62F-632 648 671-673 675-677 688-699 6C0 6C3-6CB 6CD 6CF 6D2-6D3 6D5 6EE-6EF ' +
  '710 715-719 71E 728 72A 72C 72F 74D 759-75B 76B-76C 771 773-774 778-779 840 846-847 849 854 ' +
  '856-858 867 869-86A 870-882 88E 8AA-8AC 8AE 8B1-8B2 8B9 10D22'

/** Join only to the letter after them. */
const LEFT_JOINING = 'A872 10D00'

/** Take the vowel off a consonant; a joiner behind one chooses how the cluster is written. */
const VIRAMAS =
  '94D 9CD A4D ACD B4D BCD C4D CCD D3B-D3C D4D DCA E3A EBA F84 1039-103A 1714-1715 1734 17D2 ' +
  '1A60 1B44 1BAA-1BAB 1BF2-1BF3 2D7F A806 A82C A8C4 A953 A9C0 AAF6 ABED 10A3F 11046 11070 ' +
  '1107F 110B9 11133-11134 111C0 11235 112EA 1134D 11442 114C2 115BF 1163F 116B6 1172B 11839 ' +
  '1193D-1193E 119E0 11A34 11A47 11A99 11C3F 11D44-11D45 11D97'

/** A letter that can join to the one after it. */
export const JOINS_ON = oneOf(`${DUAL_JOINING} ${LEFT_JOINING}`)
/** A letter that can join to the one before it. */
export const JOINS_BACK = oneOf(`${DUAL_JOINING} ${RIGHT_JOINING}`)
export const VIRAMA = oneOf(VIRAMAS)

/** A class of characters for a regular expression, from code points and ranges of them. */
function oneOf(ranges: string): string {
  const parts = ranges.split(' ').map((range) =>
    range
      .split('-')
      .map((point) => `\\u{${point}}`)
      .join('-'),
  )
  return `[${parts.join('')}]`
}
