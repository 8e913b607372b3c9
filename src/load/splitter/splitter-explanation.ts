import { printNumber, quantityText } from '../../quantity/index.ts';
import type { SplitterDrive, SplitterSheet, StageOutput } from '../types.ts';

type Figures = Omit<SplitterSheet, 'explanation' | 'absent'>;

/** A few sentences on a follower or splitter; every number in them is a figure of the sheet. */
export function explainSplitter(sheet: Figures): string[] {
  return [
    atRest(sheet),
    over(sheet),
    gains(sheet),
    ...sources(sheet),
    largest(sheet),
    ...balance(sheet),
    'These are figures of a published model of an average tube, without grid current and without the capacitances ' +
      'of tube and wiring; two tubes are taken as alike.',
  ].flatMap((sentence) => sentence ?? []);
}

function atRest({ device, points, cathodeV }: Figures): string | null {
  const [point] = points;
  if (!point || cathodeV === null) return null;
  const each = points.length === 1 ? `the ${device} draws` : `the driven ${device} draws`;
  const volts = (value: number) => quantityText(value, 'V');
  return (
    `At rest ${each} ${quantityText(point.plateA, 'A')} at ${volts(point.plateV)} with ${volts(point.gridV)} between ` +
    `grid and cathode; the cathode stands at ${volts(cathodeV)} to ground, which its heater insulation must bear.`
  );
}

function over({ limits }: Figures): string | null {
  const names = limits.filter((row) => row.over).map(({ name }) => name);
  return names.length === 0 ? null : `Above the rating at rest: ${names.join('; ')}.`;
}

function gains({ outputs }: Figures): string | null {
  if (outputs.length === 0) return null;
  const each = outputs.map(
    ({ name, gain, inverting }) =>
      `${printNumber(gain)} times at the ${name}${inverting ? ', inverted' : ''}`,
  );
  return `Small signals come out ${each.join(', and ')}.`;
}

function sources({ outputs, topology }: Figures): (string | null)[] {
  const each = outputs.map(({ name, outputOhm }) => `${quantityText(outputOhm, 'Ω')} at the ${name}`);
  const alone =
    each.length === 0 ? null : `Loaded alone, the next stage sees a source of ${each.join(' and ')}.`;
  if (topology !== 'split-load' || alone === null) return [alone];
  return [alone, together(outputs)];
}

function together([first]: readonly StageOutput[]): string | null {
  if (!first) return null;
  return first.togetherOhm === null
    ? 'The two resistors differ, so that no one source impedance answers for both sides loaded together.'
    : `Loaded alike on both sides, as by two equal output tubes below grid current, each side is a source of ` +
        `${quantityText(first.togetherOhm, 'Ω')}: this is the figure that applies in use. The unequal ones apply where ` +
        'one side alone is loaded, as when one output tube draws grid current.';
}

const endings: Readonly<Record<SplitterDrive['limitedBy'], string>> = {
  'grid current': 'where a grid reaches its cathode and grid current begins',
  'cut-off': 'at cut-off, where a tube is down to 1 % of its current at rest',
  saturation: 'in saturation, where more drive hardly moves the plate current',
  'traced curves': 'at the border of the traced curves',
};

function largest({ drive, outputs }: Figures): string | null {
  if (!drive) return null;
  const each = outputs.flatMap(({ name, largestVrms, thdRatio }) =>
    largestVrms === null || thdRatio === null
      ? []
      : [
          `${quantityText(largestVrms, 'V')} rms with ${quantityText(100 * thdRatio, '%', 2)} total distortion at the ${name}`,
        ],
  );
  return (
    `The swing ends ${endings[drive.limitedBy]}, at ${quantityText(drive.driveV, 'V')} peak of drive; there are then ` +
    `${each.join(' and ')}.`
  );
}

function balance({ balance: found, topology }: Figures): string[] {
  if (!found) return [];
  const { ratio, db, equalOhm, adjusted } = found;
  const [first, second] = topology === 'split-load' ? ['plate', 'cathode'] : ['driven plate', 'other plate'];
  const equal = Math.abs(db) < 0.005;
  const standing = equal
    ? `The ${second} gives as much as the ${first}.`
    : `The ${second} gives ${printNumber(ratio)} times what the ${first} gives (${quantityText(db, 'dB', 2)}).`;
  const cause =
    topology === 'split-load'
      ? 'The same current flows in both resistors, so that only their loads decide, not the tube.'
      : 'The tail takes the difference of the two currents: the larger it is against the tubes, the better the balance.';
  const mended =
    equal || equalOhm === null
      ? []
      : [`A resistor of ${quantityText(equalOhm, 'Ω')} at the ${adjusted} makes them equal.`];
  return [`${standing} ${cause}`, ...mended];
}
