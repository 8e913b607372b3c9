import type { Definition } from '../methods/definition.ts';

/** Figures of a load sheet's stages that have no measured twin; distortion has the names that captures give it. */
export const stageDefinitions: Readonly<Record<string, Definition>> = {
  power: {
    ...{ name: 'Power by the model', meaning: 'What the stage of a load sheet delivers at full drive.' },
    ...{ display: 'quantity', unit: 'W', digits: 3, better: 'higher', method: 'large-signal' },
  },
  'class-a-power': {
    ...{ name: 'Class A by the model', meaning: 'Up to this power no side of the pair stops conducting.' },
    ...{ display: 'quantity', unit: 'W', digits: 3, better: null, method: 'transistor-output' },
  },
  'plate-voltage': {
    ...{ name: 'Plate voltage by the model', meaning: 'From plate to cathode at rest.' },
    ...{ display: 'quantity', unit: 'V', digits: 3, better: null, method: 'operating-point' },
  },
  'plate-current': {
    ...{ name: 'Plate current by the model', meaning: 'What the stage draws through its plates at rest.' },
    ...{ display: 'quantity', unit: 'A', digits: 3, better: null, method: 'operating-point' },
  },
};
