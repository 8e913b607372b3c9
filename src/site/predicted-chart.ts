import { predictedHarmonics } from '../charts/index.ts';
import type { CaptureRecord } from '../journal/types.ts';
import { overDrive, type PowerStage, ratioOf } from '../load/index.ts';
import { powerOf } from './capture-charts.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** Orders that are drawn: those that a stage's load is chosen by. */
const drawn = [2, 3];

type Points = ReturnType<typeof overDrive>;

const known = new WeakMap<PowerStage, Points>();

/** A stage over its drive, solved once for every chart and page that shows it. */
function pointsOf(stage: PowerStage): Points {
  const points = known.get(stage) ?? overDrive(stage);
  known.set(stage, points);
  return points;
}

/** Harmonics of a level sweep with those of a stage's model; null where the sweep has no harmonics or no power. */
export function predictedChart(stage: PowerStage, { analysis, data }: CaptureRecord): SizedChart | null {
  if (analysis.kind !== 'level-sweep') return null;
  const { axis, sweeps, loadOhm } = analysis;
  const channel = sweeps.find((sweep) => sweep.channel.harmonics.length > 0)?.channel;
  const powerW = channel ? powerOf(channel, axis, loadOhm) : null;
  if (!channel || !powerW) return null;
  const points = pointsOf(stage);
  const measured = channel.harmonics.filter(({ order }) => drawn.includes(order));
  const chart = {
    channel: channel.name,
    model: {
      powerW: points.map((point) => point.powerW),
      orders: measured.map(({ order }) => ({
        order,
        ratio: points.map(({ harmonics }) => ratioOf(harmonics, order)),
      })),
    },
    measured: { powerW, orders: measured.map(({ order, values }) => ({ order, ratio: values })) },
    source: data.title,
  };
  return sized(predictedHarmonics, chart, `${data.title}: points as measured, thin lines by the model.`);
}
