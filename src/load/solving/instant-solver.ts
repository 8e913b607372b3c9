import type { LoadLine } from '../stage/load-line.ts';
import type { Instant, RestingStage } from '../types.ts';
import { RootSearch, rootNear } from './root-near.ts';

/** Where the currents of an instant are looked for first. */
type NearCurrents = Pick<Instant, 'plateA' | 'screenA'>;

/**
 * Finds instants of a stage on its load line, one after another: the device's characteristic meets the load line.
 * With an unbypassed cathode resistor the cathode's rise is solved as well. Neighbouring instants save each other
 * work.
 * @source graphical construction of the load line, done numerically
 */
export class InstantSolver extends RootSearch {
  readonly #stage: RestingStage;
  readonly #line: LoadLine;
  /** Resistance by which the cathode follows the signal. */
  readonly #followingOhm: number;
  /** One object for all trials, which outnumber everything else. */
  readonly #trial = { plateV: 0, screenV: 0, gridV: 0, cathodeRiseV: 0 };
  /** Null: the grid is held at the cathode's voltage. */
  #inputV: number | null = 0;
  #shiftV = 0;
  #screenA = 0;
  #last: NearCurrents;

  constructor(stage: RestingStage, line: LoadLine) {
    super();
    const { cathode } = stage;
    this.#stage = stage;
    this.#line = line;
    this.#followingOhm = cathode && !cathode.bypassed ? cathode.ohm : 0;
    this.#last = stage.rest;
  }

  /**
   * Currents and voltages when the signal in the grid circuit is `inputV`, with `shiftV` added at the plate by a load
   * that is no resistance. Without a guess the search begins at the last instant that was found.
   */
  at(inputV: number, near: NearCurrents = this.#last, shiftV = 0): Instant {
    return this.#solved(inputV, near, shiftV);
  }

  /** The instant at which the grid reaches the cathode's voltage. */
  atZeroGrid(): Instant {
    return this.#solved(null, this.#last, 0);
  }

  #solved(inputV: number | null, near: NearCurrents, shiftV: number): Instant {
    this.#inputV = inputV;
    this.#shiftV = shiftV;
    const withoutScreen = this.#through(0, near.plateA);
    const { screenA: high } = withoutScreen;
    if (this.#followingOhm === 0 || high === 0) {
      this.#last = withoutScreen;
      return withoutScreen;
    }
    let found = withoutScreen;
    const excess = (screenA: number) => {
      found = this.#through(screenA, found.plateA);
      return found.screenA - screenA;
    };
    const screenA = rootNear(excess, near.screenA, { low: 0, high });
    if (screenA !== null) excess(screenA);
    this.#last = found;
    return found;
  }

  /** The instant if the cathode resistor carried `screenA` besides the plate current. */
  #through(screenA: number, nearA: number): Instant {
    this.#screenA = screenA;
    const { device } = this.#stage;
    const trial = this.#trial;
    this.#place(0);
    const high = Math.max(0, trial.plateV / (this.#line.loadOhm + this.#followingOhm));
    const found = this.rootNear(nearA, 0, high);
    // A device that still draws more at 0 V is held there.
    const plateA = Number.isNaN(found) ? high : found;
    this.#place(plateA);
    const { plateV, screenV, gridV, cathodeRiseV } = trial;
    return { plateV, screenV, gridV, cathodeRiseV, plateA, screenA: device.screenCurrent(trial) };
  }

  protected evaluate(): void {
    this.#place(this.x);
    this.miss = this.#stage.device.plateCurrent(this.#trial) - this.x;
  }

  /** Sets the trial to the electrodes' voltages at a plate current. */
  #place(plateA: number): void {
    const { rest, feedOhm } = this.#stage;
    const { loadOhm, averagePlateA, cathodeRiseV } = this.#line;
    const trial = this.#trial;
    const riseV = cathodeRiseV + this.#followingOhm * (plateA - rest.plateA + this.#screenA - rest.screenA);
    const sourceV = rest.plateV - feedOhm * (averagePlateA - rest.plateA) + this.#shiftV;
    trial.plateV = sourceV + loadOhm * (averagePlateA - plateA) - riseV;
    trial.screenV = rest.screenV - riseV;
    trial.gridV = this.#inputV === null ? 0 : rest.gridV + this.#inputV - riseV;
    trial.cathodeRiseV = riseV;
  }
}

/** The instant of a similar cycle, moved as the one before differs; without such a cycle what the last two lead to. */
export function guessFrom(
  found: readonly Instant[],
  near: readonly Instant[] | null,
  k: number,
): NearCurrents | undefined {
  const before = found[k - 1];
  const like = near?.[k];
  if (!before) return like;
  const from = near?.[k - 1] ?? found[k - 2] ?? before;
  const to = like ?? before;
  return {
    plateA: before.plateA + to.plateA - from.plateA,
    screenA: before.screenA + to.screenA - from.screenA,
  };
}
