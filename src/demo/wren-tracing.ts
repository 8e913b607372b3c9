import { normalSource } from './random.ts';
import { type DemoFile, plainLayout, tableBytes } from './table.ts';
import { wrenTube } from './wren.ts';

const gridVolts = Array.from({ length: 10 }, (_, i) => 4 * i - 36);
const plateVolts = [0, 5, 10, 15, 20, 30, 40, 60, 80, 100, 150, 200, 250, 300, 350, 400, 450, 500];
/** Of a reading: a share of it, and what is there without current. */
const scatter = { share: 0.003, floorA: 0.1e-3 };

/** The plate curves of Wren's output tube as a tracer writes them; the path is below the journal's folder. */
export function wrenTracing(): DemoFile {
  const normal = normalSource(410);
  const reading = (current: number) =>
    1000 * Math.max(0, current * (1 + scatter.share * normal()) + scatter.floorA * normal());
  const points = gridVolts.flatMap((gridV) =>
    plateVolts.map((plateV) => {
      const { plateA, cathodeA } = wrenTube(gridV, plateV);
      return { gridV, plateV, plate: reading(plateA), screen: reading(cathodeA - plateA) };
    }),
  );
  const column = (key: 'gridV' | 'plateV' | 'plate' | 'screen', digits: number) => ({
    values: points.map((point) => point[key]),
    digits,
  });
  const bytes = tableBytes(
    {
      ...plainLayout,
      preamble: ['# invented tracing, see the journal', '# screen at 250 V'],
      headers: [['grid voltage (V)', 'plate voltage (V)', 'plate current (mA)', 'screen current (mA)']],
    },
    [column('gridV', 0), column('plateV', 0), column('plate', 1), column('screen', 1)],
  );
  return { path: 'amplifiers/wren/wren-output-curves.csv', bytes };
}
