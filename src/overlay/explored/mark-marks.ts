import { along, within } from '../../charts/axis.ts';
import type { ExploredChart } from '../../charts/explored.ts';
import { textWidth } from '../../charts/text-width.ts';
import { colour, fontSize } from '../../charts/theme.ts';
import { type Mark, words } from '../marks.ts';
import type { Plot } from '../plot.ts';

const apart = 5;

/** Rules at the named places, with their names at the upper edge where these stand clear of one another. */
export function markMarks({ panel: { x, y } }: Plot, { marks = [] }: ExploredChart): Mark[] {
  let free = 0;
  return marks
    .filter(({ at }) => within(x, at))
    .flatMap(({ name, at }): Mark[] => {
      const px = along(x, at);
      const half = textWidth(name, fontSize) / 2;
      const rule: Mark = {
        tag: 'line',
        attributes: {
          ...{ x1: px, x2: px, y1: 16, y2: y.length },
          ...{ stroke: colour('soft'), 'stroke-dasharray': '1 3' },
        },
      };
      if (px - half < free) return [rule];
      free = px + half + apart;
      return [rule, words(name, { x: px, y: 12 }, 'middle', 'soft')];
    });
}
