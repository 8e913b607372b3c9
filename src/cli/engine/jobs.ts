import type { Drawing } from '../../charts/index.ts';
import type { CaptureRequest } from '../../journal/analysis/capture-result.ts';
import type { PackedResult } from '../../journal/analysis/packed-result.ts';

/** What can be done in another thread: the name of each job, what it takes and what it answers. */
export interface Jobs {
  analyse: { task: { bytes: Uint8Array; request: CaptureRequest }; answer: PackedResult };
  /** The task is a chart's spec and text as JSON. */
  draw: { task: string; answer: Drawing };
}

export type JobName = keyof Jobs;

type Doers = { [Name in JobName]: (task: Jobs[Name]['task']) => Promise<Jobs[Name]['answer']> };

/** Each job brings its own libraries, so that a thread loads those of the other only when it is asked for them. */
const doers: Doers = {
  async analyse({ bytes, request }) {
    const { captureResult } = await import('../../journal/analysis/capture-result.ts');
    const { packed } = await import('../../journal/analysis/packed-result.ts');
    return packed(captureResult(bytes, request));
  },
  async draw(chart) {
    const { drawChart } = await import('../../charts/draw.ts');
    return drawChart(JSON.parse(chart));
  },
};

/** Does a job in this thread. */
export function perform<Name extends JobName>(
  name: Name,
  task: Jobs[Name]['task'],
): Promise<Jobs[Name]['answer']> {
  return doers[name](task);
}
