/** The notice that stands on every page and in every command's output that could lead to a bench. */
export const safetySentences = [
  'The voltages inside an amplifier can kill, also long after it is switched off and unplugged.',
  'Follow your local codes, and leave mains and high-voltage work to licensed or qualified people.',
] as const;

/** The notice as one text, for terminals and JSON. */
export const safetyNotice = safetySentences.join(' ');
