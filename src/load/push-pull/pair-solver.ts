import { RootSearch } from '../solving/root-near.ts';
import type { Device, Electrodes } from '../types.ts';
import type { PairAtRest } from './push-pull-stage.ts';

/** What the load line of a pair starts from: mean voltages to the cathode, and the unbalance. */
export interface PairLine {
  /** Load of the combined current: a quarter of that from plate to plate. */
  halfOhm: number;
  plateV: readonly [number, number];
  screenV: number;
  gridV: number;
  unbalanceA: number;
}

/** Of the bracket: a last trial this near to the root has currents that a straight line carries on to it. */
const nearEnough = 1e-6;

/** Currents of both sides at a trial voltage across half the primary. */
interface Trial {
  halfV: number;
  firstA: number;
  secondA: number;
}

/**
 * Solves one instant of a pair after another; neighbouring ones save each other work. The result stands in
 * `halfV`, the voltage across half the primary, and in the plate currents of both sides.
 * @source ampere-turns of an ideal transformer: the combined current of the two sides meets a quarter of the
 * load from plate to plate across half the primary (B. J. Thompson's composite characteristic, Proc. IRE 21
 * (1933), from memory)
 */
export class PairSolver extends RootSearch {
  halfV = 0;
  firstA = 0;
  secondA = 0;
  /** The electrodes of both sides as solved, used again for every trial: trials outnumber everything else. */
  readonly first: Electrodes;
  readonly second: Electrodes;
  readonly #firstSide: Device;
  readonly #secondSide: Device;
  readonly #halfOhm: number;
  readonly #unbalanceA: number;
  readonly #gridV: number;
  readonly #firstV: number;
  readonly #secondV: number;
  #shiftV = 0;
  /** Voltage and currents of the last trial and of the one before. */
  #latest: Trial = { halfV: Number.NaN, firstA: 0, secondA: 0 };
  #before: Trial = { halfV: Number.NaN, firstA: 0, secondA: 0 };

  constructor({ sides }: PairAtRest, line: PairLine) {
    super();
    const { plateV, screenV, gridV } = line;
    this.#firstSide = sides[0];
    this.#secondSide = sides[1];
    this.#halfOhm = line.halfOhm;
    this.#unbalanceA = line.unbalanceA;
    this.#gridV = gridV;
    this.#firstV = plateV[0];
    this.#secondV = plateV[1];
    this.first = { plateV: plateV[0], screenV, gridV };
    this.second = { plateV: plateV[1], screenV, gridV };
  }

  /**
   * The first grid stands `inputV` above its mean and the second as far below; a load that is no resistance adds
   * `shiftV` at the first plate. The voltage across half the primary is looked for near `nearV` first.
   */
  solve(inputV: number, nearV: number, shiftV = 0): void {
    this.first.gridV = this.#gridV + inputV;
    this.second.gridV = this.#gridV - inputV;
    this.#shiftV = shiftV;
    const most = Math.max(this.#firstV, this.#secondV) + Math.abs(shiftV);
    const found = this.rootNear(nearV, -most, most);
    // A side that still draws more at 0 V is held there.
    const held = inputV > 0 ? most : -most;
    this.#take(Number.isNaN(found) ? held : found, nearEnough * most);
  }

  protected evaluate(): void {
    const halfV = this.x;
    this.#place(halfV);
    const firstA = this.#firstSide.plateCurrent(this.first);
    const secondA = this.#secondSide.plateCurrent(this.second);
    const latest = this.#before;
    this.#before = this.#latest;
    this.#latest = latest;
    latest.halfV = halfV;
    latest.firstA = firstA;
    latest.secondA = secondA;
    this.miss = this.#halfOhm * (firstA - secondA - this.#unbalanceA) - this.#shiftV - halfV;
  }

  #place(halfV: number): void {
    this.first.plateV = this.#firstV - halfV;
    this.second.plateV = this.#secondV + halfV;
  }

  /** The currents at the root, from the last two trials where these are near enough. */
  #take(halfV: number, enoughV: number): void {
    if (!(Math.abs(halfV - this.#latest.halfV) <= enoughV)) {
      this.x = halfV;
      this.evaluate();
    }
    const latest = this.#latest;
    const before = this.#before;
    const share = halfV === latest.halfV ? 0 : (halfV - latest.halfV) / (latest.halfV - before.halfV);
    this.halfV = halfV;
    this.firstA = latest.firstA + (share === 0 ? 0 : share * (latest.firstA - before.firstA));
    this.secondA = latest.secondA + (share === 0 ? 0 : share * (latest.secondA - before.secondA));
    this.#place(halfV);
  }
}
