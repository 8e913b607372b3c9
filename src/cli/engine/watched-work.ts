import type { OpenStage } from '../../journal/resolve.ts';
import type { Output } from '../output.ts';
import type { EngineListener } from './engine.ts';
import { progressOn } from './progress.ts';
import { timings } from './timings.ts';

/** A stage of a command's work: of opening the journal, or of making the site. */
type Stage = OpenStage | 'pages' | 'fonts' | 'search' | 'putting in place';

/** Follows the work of a command: tells how far it is, and where the time went. */
export interface WatchedWork {
  /** Says that a stage begins. */
  begin(stage: Stage): void;
  /** What the engine does it tells here. */
  listener: EngineListener;
  /** Ends the telling; with `isAsked` it says where the time went. */
  end(isAsked: boolean): void;
}

/** How many there were of each kind, and where they came from. */
interface Tally {
  computed: number;
  kept: number;
  known: number;
}

const named: Partial<Record<Stage, string>> = { captures: 'Captures', pages: 'Charts so far:' };

/** Watches work that begins now. */
export function watchedWork(output: Output, clock: () => number = () => performance.now()): WatchedWork {
  const progress = progressOn(output, clock);
  const times = timings(clock);
  const captures: Tally = { computed: 0, kept: 0, known: 0 };
  const drawings: Tally = { computed: 0, kept: 0, known: 0 };
  const texts: Tally = { computed: 0, kept: 0, known: 0 };
  const charts: Tally = { computed: 0, kept: 0, known: 0 };
  let expected = 0;
  return {
    begin(stage) {
      times.begin(stage);
      progress.begin(named[stage] ?? stage);
    },
    listener: {
      onExpected(more) {
        expected += more;
      },
      onResult(origin) {
        captures[origin] += 1;
        progress.at(sum(captures), expected);
      },
      onDrawing(origin) {
        drawings[origin] += 1;
        progress.at(sum(drawings) + charts.kept, null);
      },
      onText(origin) {
        texts[origin] += 1;
      },
      onSiteResult(origin) {
        charts[origin] += 1;
        progress.at(sum(drawings) + charts.kept, null);
      },
    },
    end(isAsked) {
      progress.end();
      if (!isAsked) return;
      const notes = {
        prose: `${sum(texts)} texts: ${texts.computed} rendered, ${texts.kept} kept`,
        captures: `${sum(captures)} captures: ${captures.computed} analysed, ${sum(captures) - captures.computed} kept`,
        pages: `${sum(drawings)} drawings: ${drawings.computed} drawn, ${drawings.kept} kept, ${drawings.known} of one already under way; ${sum(charts)} charts and curves of captures: ${charts.computed} made, ${charts.kept} kept`,
        'in all': `largest size in memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MiB`,
      };
      output.notice(times.lines(notes).join('\n'));
    },
  };
}

const sum = ({ computed, kept, known }: Tally) => computed + kept + known;
