/** The kinds of record that a search tells apart, in the order in which they are offered. */
export const searchKinds = {
  log: { one: 'Log', many: 'Logs' },
  capture: { one: 'Capture', many: 'Captures' },
  amplifier: { one: 'Amplifier', many: 'Amplifiers' },
  version: { one: 'Version', many: 'Versions' },
  unit: { one: 'Unit', many: 'Units' },
  part: { one: 'Part', many: 'Parts' },
  comparison: { one: 'Comparison', many: 'Comparisons' },
  decision: { one: 'Decision', many: 'Decisions' },
  listening: { one: 'Listening session', many: 'Listening sessions' },
  page: { one: 'Page', many: 'Pages' },
  method: { one: 'Method', many: 'Methods' },
  tag: { one: 'Tag', many: 'Tags' },
  safety: { one: 'Safety', many: 'Safety' },
} as const;

export type SearchKind = keyof typeof searchKinds;
