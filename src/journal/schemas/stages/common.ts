import { line, quantity, slug } from '../fields.ts';

/** What every stage says of itself. */
export const stageKeys = {
  /** Short name: `output`. */
  id: slug,
  /** Heading on the page: `Output stage`. */
  title: line.optional(),
};

/** What a stage with a load to choose may be asked to do. */
export const aimKeys = {
  /** Power at which the load of least distortion is sought as well: `3 W`. */
  statedPower: quantity('power').optional(),
  /** Total distortion at which the load of most power is sought as well: `5 %`. */
  statedDistortion: quantity('ratio').optional(),
};

/** What a stage is asked to do, as the load room takes it. */
export const aimsOf = (stage: {
  statedPower?: number | undefined;
  statedDistortion?: number | undefined;
}) => ({
  statedPowerW: stage.statedPower ?? null,
  statedDistortionRatio: stage.statedDistortion ?? null,
});

/** What stands between the plates and the air, in place of a stated load. */
export const outputKeys = {
  /** Output transformer: `parts/heron-output`. */
  transformer: line.optional(),
  /** Its secondary tap in use, where it has several: `8 Ω`. */
  tap: line.optional(),
  /** Share of the primary's turns in use: `70 %` (default 100 %). */
  primaryTurns: quantity('ratio').optional(),
  /** What is on the secondary: `8 Ω`, or the id of a loudspeaker's impedance sweep. */
  speaker: line.optional(),
};
