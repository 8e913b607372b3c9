import { detailMessages, type Finding } from '../messages.ts';
import type { ChannelSummary } from '../types.ts';
import { type RecordLength, type Transfer, transferBetween } from './transfer.ts';

/** Transfers of a record, and what must be said of responses that have none. */
export interface Transfers {
  transfers: Transfer[];
  findings: Finding[];
}

/**
 * Transfers of a record: each response with its own stimulus where there are as many of one as of the other, and with
 * the first stimulus otherwise. A pair of which either has no fundamental is left out; that is told elsewhere.
 */
export function transfersOf(channels: readonly ChannelSummary[], record: RecordLength): Transfers {
  const found: Transfers = { transfers: [], findings: [] };
  for (const { stimulus, response } of pairsOf(channels)) {
    const transfer = transferBetween(stimulus, response, record);
    if (transfer) found.transfers.push(transfer);
    else if (stimulus.fundamental && response.fundamental)
      found.findings.push(detailMessages.fundamentalsDiffer(stimulus.name, response.name));
  }
  return found;
}

function pairsOf(channels: readonly ChannelSummary[]) {
  const stimuli = channels.filter(({ role }) => role === 'stimulus');
  const responses = channels.filter(({ role }) => role === 'response');
  return responses.flatMap((response, i) => {
    const stimulus = stimuli[stimuli.length === responses.length ? i : 0];
    return stimulus ? [{ stimulus, response }] : [];
  });
}
