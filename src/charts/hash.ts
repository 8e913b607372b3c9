/**
 * A short key of a text: eight hexadecimal digits. Takes one step per UTF-16 code unit, which for ASCII text
 * is the published hash of its octets.
 * @source FNV-1a, 32 bits (G. Fowler, L. C. Noll, K.-P. Vo): offset basis 2166136261, prime 16777619
 */
export function hash(text: string): string {
  let state = 2166136261;
  for (let i = 0; i < text.length; i++) state = Math.imul(state ^ text.charCodeAt(i), 16777619);
  return (state >>> 0).toString(16).padStart(8, '0');
}
