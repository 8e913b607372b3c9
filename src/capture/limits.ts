/** Largest file that is read, in bytes: 64 MiB. */
export const maxBytes = 64 * 1024 * 1024;

/** Most rows of numbers in one capture. */
export const maxRows = 4_000_000;

/** Most cells in one row. */
export const maxColumns = 256;

/** Faulty rows that are reported one by one; the rest are counted. */
export const maxFaultyRows = 5;

/** Longest line that is split into cells, in characters. */
export const maxLineLength = 65_536;

/** Characters of a header that are looked at for words and units. */
export const longestHeader = 200;
