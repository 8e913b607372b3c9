import type { Harmonic, StageSheet, TubeStageSheet } from '../../load/index.ts';
import type { MethodId } from '../methods/methods.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';

type Numbers = [id: string, value: number | null | undefined, unit: string][];

/** The figures of a load sheet's stages that prose and claims can name; `file` is the record they are computed from. */
export function stageFigures(stages: readonly StageSheet[], file: string): Figure[] {
  return stages.flatMap((stage) =>
    numbersOf(stage).map(([id, value, unit]): Figure => {
      const method = methodOf(stage) ?? definitionOf(id)?.method ?? 'large-signal';
      const provenance = { file, sha256: null, lines: null, method, settings: {} };
      const absent = value === null || value === undefined ? { absent: reasonOf(stage) } : {};
      return { id, value: value ?? null, unit, ...absent, subject: stage.id, conditions: {}, provenance };
    }),
  );
}

/** The method of a kind of stage that is not followed along a tube's load line; null for one that is. */
function methodOf({ topology }: StageSheet): MethodId | null {
  if (topology === 'push-pull') return 'push-pull';
  return topology === 'follower' || topology === 'follower-pair' ? 'transistor-output' : null;
}

const reasonOf = ({ absent }: StageSheet) => Object.values(absent)[0] ?? 'The load sheet does not give it.';

function numbersOf(stage: StageSheet): Numbers {
  switch (stage.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return [...restOf(stage), ...drivenOf(stage.atLoad)];
    case 'push-pull':
      return [...drivenOf(stage.atLoad), ['class-a-power', stage.atLoad?.classAPowerW, 'W']];
    case 'follower':
    case 'follower-pair':
      return [
        ['power', stage.largest?.outputW, 'W'],
        ['class-a-power', stage.classAW, 'W'],
      ];
    default:
      return [];
  }
}

const restOf = ({ operatingPoint }: Pick<TubeStageSheet, 'operatingPoint'>): Numbers => [
  ['plate-voltage', operatingPoint?.plateV, 'V'],
  ['plate-current', operatingPoint?.plateA, 'A'],
];

function drivenOf(atLoad: { powerW: number; thdRatio: number; harmonics: Harmonic[] } | null): Numbers {
  const harmonics = atLoad?.harmonics ?? [];
  return [
    ['power', atLoad?.powerW, 'W'],
    ['thd', atLoad?.thdRatio, '1'],
    ...harmonics.map(({ order, ratio }): Numbers[number] => [`harmonic-${order}`, Math.abs(ratio), '1']),
  ];
}
