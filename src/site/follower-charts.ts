import { dissipationAgainstLoad, dissipationAgainstPower } from '../charts/index.ts';
import type { FollowerSheet } from '../load/index.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** The charts of a transistor stage: heat and efficiency against output, and heat against load. */
export function followerCharts(stage: FollowerSheet): { name: string; chart: SizedChart }[] {
  return stage.byOutput.length > 1
    ? [
        { name: 'heat', chart: againstOutput(stage) },
        { name: 'loads', chart: againstLoad(stage) },
      ]
    : [];
}

function againstOutput({ byOutput }: FollowerSheet): SizedChart {
  const data = {
    powerW: byOutput.map(({ outputW }) => outputW),
    deviceW: byOutput.map(({ deviceW }) => deviceW),
    efficiency: byOutput.map(({ efficiency }) => efficiency),
  };
  return sized(dissipationAgainstPower, data, 'Steady sine into the stated load, averaged over the cycle.');
}

function againstLoad({ byLoad, loadOhm }: FollowerSheet): SizedChart {
  const data = {
    loadOhm: byLoad.map((row) => row.loadOhm),
    resistiveW: byLoad.map(({ resistiveW }) => resistiveW),
    reactiveW: byLoad.map(({ reactiveW }) => reactiveW),
    chosenOhm: loadOhm,
  };
  return sized(
    dissipationAgainstLoad,
    data,
    'The largest average dissipation of each transistor over all outputs.',
  );
}
