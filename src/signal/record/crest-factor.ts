/**
 * Largest distance of a sample from the direct part over the rms about it: √2 for a sine, 1 for a square wave.
 * Null for a record without any variation about `constant`.
 */
export function crestFactor(values: Float64Array, constant: number): number | null {
  let peak = 0;
  let squares = 0;
  for (let n = 0; n < values.length; n++) {
    const distance = Math.abs((values[n] ?? 0) - constant);
    if (distance > peak) peak = distance;
    squares += distance * distance;
  }
  return squares > 0 ? peak / Math.sqrt(squares / values.length) : null;
}
