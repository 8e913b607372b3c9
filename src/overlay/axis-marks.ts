import { type Axis, along } from '../charts/axis.ts';
import { pixelY } from '../charts/layers.ts';
import { colour, numberPadding } from '../charts/theme.ts';
import {
  isDecade,
  linearTicks,
  logTicks,
  plainTick,
  prefixedTick,
  type TickPrint,
  type Ticks,
} from '../charts/ticks.ts';
import { type Mark, words } from './marks.ts';
import type { Plot } from './plot.ts';
import type { View } from './views.ts';

/** What stands at the axes. */
export interface SceneAxes {
  x: { title: string; print: TickPrint };
  y: string;
}

/** The axes of an overlay. */
export const overlayAxes = ({ along: over, quantity }: View, unit: string): SceneAxes => ({
  x:
    over === 'power'
      ? { title: 'Output power, W', print: plainTick }
      : { title: 'Frequency, Hz', print: prefixedTick },
  y: `${quantity}, ${unit}`,
});

/** Rules, numbers and titles of both axes. */
export function axisMarks({ panel, frame }: Plot, { x, y }: SceneAxes): Mark[] {
  const across = ticksOf(panel.x, x.print, 70);
  const up = ticksOf(panel.y, plainTick, 38);
  return [
    ...rules(across, panel.x, (value) => ({ x1: along(panel.x, value), y1: 0, y2: panel.y.length })),
    ...rules(up, panel.y, (value) => ({ y1: pixelY(panel, value), x1: 0, x2: panel.x.length })),
    ...across.labelled.map((value) =>
      words(
        x.print.text(value),
        { x: along(panel.x, value), y: panel.y.length + numberPadding + 11 },
        'middle',
        'soft',
      ),
    ),
    ...up.labelled.map((value) =>
      words(plainTick.text(value), { x: -numberPadding, y: pixelY(panel, value) + 4.5 }, 'end', 'soft'),
    ),
    words(x.title, { x: panel.x.length, y: panel.y.length + 40 }, 'end', 'ink'),
    words(y, { x: 2 - frame.left, y: -14 }, 'start', 'ink'),
  ];
}

/** A short piece of a logarithmic axis has the round steps of a linear one, as it holds too few multiples. */
function ticksOf(axis: Axis, print: TickPrint, apart: number): Ticks {
  const ticks = axis.kind === 'log' ? logTicks(axis, print, apart < 50) : null;
  return ticks && ticks.labelled.length > 2 ? ticks : linearTicks(axis, axis.length / apart);
}

interface Ends {
  x1: number;
  y1: number;
  x2?: number;
  y2?: number;
}

function rules({ values }: Ticks, { kind }: Axis, ends: (value: number) => Ends): Mark[] {
  return values.map((value) => {
    const place = ends(value);
    const tone = kind === 'log' && isDecade(value) ? 'decade' : 'rule';
    return {
      tag: 'line',
      attributes: { ...place, x2: place.x2 ?? place.x1, y2: place.y2 ?? place.y1, stroke: colour(tone) },
    };
  });
}
