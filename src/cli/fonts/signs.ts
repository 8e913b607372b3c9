/** What a keyboard writes. */
const keyboard = Array.from({ length: 0x7f - 0x20 }, (_, index) => String.fromCodePoint(0x20 + index)).join(
  '',
);

/** What browsers and page scripts put into text, and signs that values and units are written with. */
const spaces = '\u00a0\u2002\u2003\u2005\u2009\u200a\u202f';
const marks = '\u2010\u2011–—‘’‚“”„•…′″·';
const values = '−±×÷°µμΩωπφσΔ²³¹½¼¾%‰€←↑→↓';

/** Code points that every site has letters for, whatever stands on its pages. */
export const usualPoints: readonly number[] = [...keyboard, ...spaces, ...marks, ...values].map(
  (sign) => sign.codePointAt(0) ?? 0,
);
