/** Matches where charts have their narrow design. */
export const isNarrow = matchMedia('(max-width: 40rem)');
