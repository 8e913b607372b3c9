import { decibelsOf, readAt } from './levels.ts';
import { commonRange, meanLevel } from './mean-level.ts';
import { messages } from './messages.ts';
import type { Norm } from './norms.ts';
import type { Overlaid, Trace } from './types.ts';

/**
 * Puts traces on one axis. As measured, those whose unit is not the first one's are left out; otherwise every trace
 * is in decibels: re its own value at 1 kHz, its mean over the range that all share, its fundamental, or the
 * reference at the same place, interpolated between the reference's readings and only there.
 */
export function normalised(traces: readonly Trace[], norm: Norm, reference: string | null): Overlaid {
  const drawable = traces.filter(({ y }) => y.some((value) => value !== null));
  const empty = traces
    .filter((trace) => !drawable.includes(trace))
    .map(({ title }) => messages.noReading(title));
  const { traces: shown, leftOut } = byNorm(drawable, norm, reference);
  return { traces: shown, leftOut: [...empty, ...leftOut] };
}

function byNorm(traces: readonly Trace[], norm: Norm, reference: string | null): Overlaid {
  switch (norm.id) {
    case 'none':
      return asMeasured(traces);
    case '1khz':
      return shiftedBy(traces, (trace) => readAt(inDecibels(trace), 1000), messages.notAt);
    case 'mean':
      return toEqualMean(traces);
    case 'carrier':
      return shiftedBy(traces, ({ carrier }) => carrier ?? null, messages.noCarrier);
    case 'difference':
      return differences(traces, reference);
  }
}

function asMeasured(traces: readonly Trace[]): Overlaid {
  const unit = traces[0]?.unit ?? '';
  return collected(traces, (trace) =>
    trace.unit === unit ? trace : messages.unlikeUnits(trace.title, trace.unit, unit),
  );
}

function toEqualMean(traces: readonly Trace[]): Overlaid {
  const levels = traces.map(inDecibels);
  const range = commonRange(levels);
  if (range === null) return { traces: [], leftOut: traces.length === 0 ? [] : [messages.noCommon] };
  return shiftedBy(traces, (trace) => meanLevel(inDecibels(trace), range), messages.noReading);
}

function shiftedBy(
  traces: readonly Trace[],
  zeroOf: (trace: Trace) => number | null,
  reason: (title: string) => string,
): Overlaid {
  return collected(traces, (trace) => {
    const zero = zeroOf(trace);
    return zero === null ? reason(trace.title) : shifted(trace, zero);
  });
}

/** A trace in decibels re a level. A noise floor moves along; intervals of single readings are not those of ratios. */
function shifted(trace: Trace, zero: number): Trace {
  const { floor, y, ...kept } = inDecibels(trace);
  return {
    ...kept,
    y: y.map((level) => (level === null ? null : level - zero)),
    ...(floor === undefined ? {} : { floor: floor.map((level) => level - zero) }),
  };
}

function inDecibels(trace: Trace): Trace {
  const { low: _low, high: _high, ...kept } = trace;
  return { ...kept, unit: 'dB', y: decibelsOf(trace) };
}

function differences(traces: readonly Trace[], id: string | null): Overlaid {
  const reference = traces.find((trace) => trace.id === id) ?? traces[0];
  if (reference === undefined) return { traces: [], leftOut: [] };
  const zero = inDecibels(reference);
  return collected(traces, (trace) => {
    if (trace.unit !== reference.unit) {
      return messages.unlikeReference(trace.title, trace.unit, reference.unit);
    }
    const y = decibelsOf(trace).map((level, i) => less(level, readAt(zero, trace.x[i] ?? 0)));
    return y.every((value) => value === null) ? messages.noOverlap(trace.title) : { ...inDecibels(trace), y };
  });
}

const less = (level: number | null, zero: number | null): number | null =>
  level === null || zero === null ? null : level - zero;

function collected(traces: readonly Trace[], placed: (trace: Trace) => Trace | string): Overlaid {
  const results = traces.map(placed);
  return {
    traces: results.filter((result) => typeof result !== 'string'),
    leftOut: results.filter((result) => typeof result === 'string'),
  };
}
