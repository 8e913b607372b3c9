/** What the curves of a view are normalised to. */
export interface Norm {
  id: 'none' | '1khz' | 'mean' | 'carrier' | 'difference';
  name: string;
  /** What stands behind the quantity at the axis; null for the curves' own unit. */
  unit: string | null;
}

export const norms = {
  none: { id: 'none', name: 'as measured', unit: null },
  oneKilohertz: { id: '1khz', name: 'to its value at 1 kHz', unit: 'dB re 1 kHz' },
  meanLevel: { id: 'mean', name: 'to equal mean level', unit: 'dB re mean' },
  carrier: { id: 'carrier', name: 'to equal fundamental', unit: 'dB re fundamental' },
  difference: { id: 'difference', name: 'difference from a reference', unit: 'dB re reference' },
} as const satisfies Record<string, Norm>;
