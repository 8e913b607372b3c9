/** The same angle within (−180, 180]. */
export function wrapDegrees(degrees: number): number {
  const wrapped = degrees - 360 * Math.ceil(degrees / 360 - 0.5);
  return wrapped === 0 ? 0 : wrapped;
}
