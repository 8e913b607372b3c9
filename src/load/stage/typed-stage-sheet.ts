import { couplingFaults, couplingOf, explainCoupling } from '../chain/coupling.ts';
import { explainDevice } from '../device/device-explanation.ts';
import { typedBesideModel, typedOnly } from '../device/device-messages.ts';
import { voltageGain } from '../device/small-signal.ts';
import { typedSmallSignal } from '../device/typed-small-signal.ts';
import { noGain } from '../messages.ts';
import type {
  LoadFault,
  SmallSignal,
  StageGain,
  TubeStageDescription,
  TubeStageSheet,
  TypedSmallSignal,
} from '../types.ts';
import { checkStage } from './check-description.ts';
import { signalLoad } from './resting-stage.ts';
import { nothingOf } from './tube-stage-nothing.ts';

/** The sheet of a stage whose small-signal values are typed: its gain, and nothing of large signals. */
export function typedStageSheet(
  description: TubeStageDescription,
  typed: TypedSmallSignal,
): { sheet: TubeStageSheet; problems: LoadFault[] } {
  const { small, faults } = typedSmallSignal(typed);
  const beside = needsModel(description) ? [typedBesideModel()] : [];
  const problems = [...checkStage(description), ...couplingFaults(description), ...beside, ...faults];
  const usable = problems.every(({ severity }) => severity === 'warning') ? small : null;
  const coupling = usable && couplingOf(description, usable, signalLoad(description));
  const figures = {
    ...nothingOf(description),
    typed: usable,
    gain: usable && gainOf(description, usable),
    coupling,
  };
  return {
    sheet: {
      ...figures,
      explanation: [...explainDevice(figures), ...explainCoupling(coupling)],
      absent: absentOf(figures.gain),
    },
    problems,
  };
}

const needsModel = ({ curves, measured, tapRatio, count }: TubeStageDescription) =>
  curves != null || measured != null || tapRatio != null || (count ?? 1) !== 1;

function gainOf(description: TubeStageDescription, { mu, rpOhm }: SmallSignal): StageGain | null {
  const loadOhm = signalLoad(description);
  const { bias } = description;
  if (mu === null || rpOhm === null || loadOhm === null) return null;
  return voltageGain({ mu, rpOhm, loadOhm, cathodeOhm: bias.kind === 'cathode-resistor' ? bias.ohm : null });
}

function absentOf(gain: StageGain | null): TubeStageSheet['absent'] {
  const reason = typedOnly();
  const large = { operatingPoint: reason, limits: reason, atLoad: reason, candidates: reason, sweep: reason };
  return gain ? large : { ...large, gain: noGain() };
}
