import { z } from 'zod';
import type { FollowerDescription } from '../../../load/index.ts';
import { line, quantity, wholeNumber } from '../fields.ts';
import { stageKeys } from './common.ts';

/** The way of the heat from junction to air. */
const thermalSchema = z.strictObject({
  /** `1.2 K/W`; left out, it is derived from the rated power. */
  junctionToCase: quantity('thermal resistance').optional(),
  /** Insulator and paste: `0.5 K/W`. */
  caseToSink: quantity('thermal resistance'),
  /** `2.2 K/W`. */
  sinkToAmbient: quantity('thermal resistance'),
  /** Air around the sink, inside the case: `40 °C`. */
  ambient: quantity('temperature'),
  /** As the data sheet states it: `150 °C`. */
  maxJunction: quantity('temperature'),
  /** Transistors of the stage on one sink: `2`; left out, all of them. */
  devices: wholeNumber(1, 1000).optional(),
  /** Heat of other parts on the same sink: `3 W`. */
  otherHeat: quantity('power').optional(),
});

/** Maximum ratings of one transistor, with where they are stated. */
const ratingsSchema = z.strictObject({
  /** Collector to emitter, or drain to source: `100 V`. */
  voltage: quantity('voltage').optional(),
  /** `8 A`. */
  current: quantity('current').optional(),
  /** With the case at 25 °C: `80 W`. */
  power: quantity('power').optional(),
  /** `data sheet of the maker, 2019, page 2`. */
  source: line,
});

/** A transistor output stage. */
export const followerSchema = z
  .strictObject({
    ...stageKeys,
    /** `follower-pair` (complementary, class AB or B) or `follower` (single, class A). */
    topology: z.enum(['follower', 'follower-pair']),
    /** Each rail of a split supply: `18 V`; left out, that of the supply. */
    rails: quantity('voltage').optional(),
    /** The whole of a single supply, with an output capacitor: `36 V`; left out, that of the supply. */
    rail: quantity('voltage').optional(),
    /** `2200 µF`. */
    outputCapacitor: quantity('capacitance').optional(),
    /** `8 Ω`. */
    load: quantity('resistance'),
    /** In each transistor: `0.22 Ω`. */
    emitterResistor: quantity('resistance').optional(),
    /** In each transistor at rest: `40 mA`; of a follower, what the current source holds. */
    biasCurrent: quantity('current').optional(),
    /** Below a follower, from the output to the other rail: `12 Ω`. */
    sinkResistor: quantity('resistance').optional(),
    /** Transistors in parallel, in a pair on each side: `2`. */
    count: wholeNumber(1, 100).default(1),
    /** What the rail loses at the crest to saturation, junctions and driver: `2 V`. */
    lossVoltage: quantity('voltage'),
    /** Output at which figures are wanted besides: `10 W`. */
    power: quantity('power').optional(),
    /** From junction to air. */
    thermal: thermalSchema.optional(),
    /** Maximum ratings of one transistor. */
    ratings: ratingsSchema.optional(),
  })
  .superRefine((stage, context) => {
    const fault = supplyFault(stage) ?? biasFault(stage);
    if (fault) context.addIssue({ code: 'custom', ...fault });
  });

type FollowerData = z.infer<typeof followerSchema>;

interface SchemaFault {
  path: string[];
  message: string;
  params: { rule: string; hint: string };
}

function supplyFault({ rails, rail, outputCapacitor }: Partial<FollowerData>): SchemaFault | null {
  const fault = (path: string, message: string, hint: string): SchemaFault => ({
    path: [path],
    message,
    params: { rule: 'output-coupling', hint },
  });
  if (rail !== undefined && rails !== undefined) {
    return fault(
      'rail',
      'A stage has either rails: or rail:, not both.',
      'Keep rails: for a split supply, rail: for a single one.',
    );
  }
  if (rail !== undefined && outputCapacitor === undefined) {
    return fault(
      'rail',
      'A stage on a single supply needs an output capacitor.',
      'Add it, for example outputCapacitor: 2200 µF, or write rails: for a split supply.',
    );
  }
  return rails !== undefined && outputCapacitor !== undefined
    ? fault(
        'outputCapacitor',
        'A stage on a split supply has no output capacitor.',
        'Write rail: with the whole voltage for a single supply.',
      )
    : null;
}

function biasFault({ topology, biasCurrent, sinkResistor }: Partial<FollowerData>): SchemaFault | null {
  const fault = (path: string, message: string, hint: string): SchemaFault => ({
    path: [path],
    message,
    params: { rule: 'bias', hint },
  });
  if (topology === 'follower-pair') {
    if (sinkResistor !== undefined) {
      return fault(
        'sinkResistor',
        'A complementary pair has no sink resistor.',
        'Leave it out, or write topology: follower.',
      );
    }
    return biasCurrent === undefined
      ? fault(
          'topology',
          'The current at rest of the pair is not stated.',
          'Add it, for example biasCurrent: 40 mA; 0 A is class B.',
        )
      : null;
  }
  return (biasCurrent === undefined) === (sinkResistor === undefined)
    ? fault(
        'topology',
        'The current at rest of a follower is given by exactly one of biasCurrent and sinkResistor.',
        'Write biasCurrent: 1.2 A for a current source, or sinkResistor: 12 Ω.',
      )
    : null;
}

/** The stage as the load room takes it. */
export function followerDescription(stage: FollowerData): FollowerDescription {
  return {
    id: stage.id,
    topology: stage.topology,
    railV: stage.rails ?? stage.rail ?? null,
    outputCapacitorF: stage.outputCapacitor ?? null,
    loadOhm: stage.load,
    emitterOhm: stage.emitterResistor ?? 0,
    biasA: stage.biasCurrent ?? null,
    sinkOhm: stage.sinkResistor ?? null,
    count: stage.count,
    lossV: stage.lossVoltage,
    powerW: stage.power ?? null,
    thermal: thermalOf(stage.thermal),
    ratings: ratingsOf(stage.ratings),
  };
}

function thermalOf(thermal: FollowerData['thermal']): FollowerDescription['thermal'] {
  if (!thermal) return null;
  return {
    junctionToCase: thermal.junctionToCase ?? null,
    caseToSink: thermal.caseToSink,
    sinkToAmbient: thermal.sinkToAmbient,
    ambientC: thermal.ambient,
    maxJunctionC: thermal.maxJunction,
    devices: thermal.devices ?? null,
    otherW: thermal.otherHeat ?? 0,
  };
}

function ratingsOf(ratings: FollowerData['ratings']): FollowerDescription['ratings'] {
  if (!ratings) return null;
  return {
    voltageV: ratings.voltage ?? null,
    currentA: ratings.current ?? null,
    powerW: ratings.power ?? null,
    source: ratings.source,
  };
}
