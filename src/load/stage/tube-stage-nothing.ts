import { isCount, isTap } from '../device/device-bounds.ts';
import type { TubeStageDescription, TubeStageSheet } from '../types.ts';

/** The sheet of a described stage before anything is computed. */
export function nothingOf(description: TubeStageDescription): Omit<TubeStageSheet, 'absent'> {
  const { id, topology, device, connection, tapRatio, count, curves } = description;
  return {
    id,
    topology,
    device,
    connection,
    tapRatio: connection === 'distributed-load' && isTap(tapRatio) ? tapRatio : null,
    count: isCount(count) ? count : 1,
    curvesFrom: curves?.name ?? null,
    modelFit: null,
    measured: null,
    typed: null,
    modelSource: null,
    operatingPoint: null,
    limits: [],
    gain: null,
    coupling: null,
    atLoad: null,
    candidates: [],
    sweep: [],
    explanation: [],
  };
}
