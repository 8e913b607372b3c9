import katex from 'katex';

/** A TeX formula as display MathML; a fault in the TeX is a fault of ours and throws. */
export function formulaMarkup(tex: string): string {
  return katex.renderToString(tex, {
    output: 'mathml',
    displayMode: true,
    throwOnError: true,
    strict: 'error',
  });
}
