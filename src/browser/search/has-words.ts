/** The share of a word's letters that one of a page must begin with to be another form of it. */
const sharedForms = 0.6;

/**
 * True where a page has every word of a text, or another form of it. Of a word that the index does not know it
 * looks for the beginning, so that one tube type would find another; a word with a digit has to be there itself.
 */
export function hasWords(content: string, text: string): boolean {
  const there = wordsOf(content);
  return wordsOf(text).every((wanted) => there.some((word) => isFormOf(word, wanted)));
}

function isFormOf(word: string, wanted: string): boolean {
  if (word.includes(wanted)) return true;
  return !/\d/.test(wanted) && word.startsWith(wanted.slice(0, Math.ceil(wanted.length * sharedForms)));
}

/** Words in small letters, without what stands around or within them, as the index keeps them. */
const wordsOf = (text: string) =>
  text
    .toLowerCase()
    .split(/\s+/)
    .map((word) => word.replaceAll(/[^\p{L}\p{N}]/gu, ''))
    .filter((word) => word !== '');
