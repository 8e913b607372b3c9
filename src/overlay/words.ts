import { counted } from '../charts/format.ts';
import { valuesAt } from './cursor.ts';
import { placeText, valueText } from './print.ts';
import type { OverlayState } from './state.ts';
import type { Trace } from './types.ts';

const mostNamed = 3;

/** The title of an overlay: what its traces read at the cursor; without one, at 1 kHz or 1 W where that tells something. */
export function overlayTitle(state: OverlayState, traces: readonly Trace[]): string {
  const { view, norm, cursor } = state;
  const how = norm.id === 'none' ? '' : `, ${norm.name}`;
  const place = cursor ?? usualPlace(state);
  const read = place === null ? [] : valuesAt(traces, place).filter(({ value }) => value !== null);
  if (place === null || read.length === 0 || read.length > mostNamed) {
    return `${view.name}${how}: ${counted(traces.length, 'trace', 'traces')}`;
  }
  return `${view.quantity}${how}, ${cursorText(traces, place, view)}`;
}

/** A spectrum says nothing at one place, and a curve nothing where it is held to zero. */
function usualPlace({ view, norm }: OverlayState): number | null {
  if (view.id === 'spectrum' || (norm.id !== 'none' && norm.id !== 'difference')) return null;
  return view.along === 'power' ? 1 : 1000;
}

/** What the traces read at a place: "at 1.00 kHz: 1.73 % for Heron 1; 0.329 % for Heron 2". */
export function cursorText(traces: readonly Trace[], place: number, view: OverlayState['view']): string {
  const values = valuesAt(traces, place).map(
    ({ trace, value }) => `${valueText(value, trace.unit)} for ${trace.title}`,
  );
  return `at ${placeText(place, view)}: ${values.join('; ')}`;
}
