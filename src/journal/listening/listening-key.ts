import { readKey, type SessionKey } from '../../listening/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import { sha256Of } from '../analysis/sha256.ts';
import { readText } from '../files.ts';
import type { RawRecord } from '../records.ts';
import type { ListeningData } from '../schemas/index.ts';
import type { ListeningSession } from '../types.ts';
import { listeningMessages as messages } from './listening-messages.ts';

type RawSession = RawRecord<ListeningData>;

/** Where the key file lies once it is unsealed: beside the record, with its name. */
export const keyFileOf = (id: string): string => `${id}.key.txt`;

/**
 * Verifies a session's key file against the hash in the record, and the trials against the key. Without a key file beside
 * the record the session is still sealed.
 */
export async function verifyKey(
  record: RawSession,
  { root, files }: { root: string; files: readonly string[] },
): Promise<{ sealing: ListeningSession['sealing']; problems: Problem[] }> {
  const { id, data, yaml, file: recordFile } = record;
  const file = keyFileOf(id);
  const isSealed = data.keySha256 !== undefined;
  const hashPlace = yaml.placeOf(['keySha256']);
  if (!files.includes(file)) {
    const missing =
      isSealed && data.trials.length > 0 ? [problemAt(hashPlace, messages.keyMissing(file))] : [];
    return { sealing: isSealed ? 'sealed' : 'not sealed', problems: missing };
  }
  if (!isSealed) {
    const place = { file: recordFile, line: 1, column: 1 };
    return { sealing: 'not sealed', problems: [problemAt(place, messages.keyUnsealed(file))] };
  }
  const { text, problems } = await readText(root, file);
  if (text === null) return { sealing: 'sealed', problems };
  if (sha256Of(text) !== data.keySha256) {
    return { sealing: 'sealed', problems: [problemAt(hashPlace, messages.keyHash(file))] };
  }
  const read = readKey(text);
  if ('fault' in read) {
    return { sealing: 'sealed', problems: [problemAt({ file, line: read.line, column: 1 }, read.fault)] };
  }
  const faults = [...headFaults(record, read.key), ...orderFaults(record, read.key)];
  if (data.trials.length === 0) {
    return { sealing: 'not sealed', problems: [...faults, problemAt(hashPlace, messages.keyOpen(file))] };
  }
  return { sealing: faults.length > 0 ? 'sealed' : 'verified', problems: faults };
}

function headFaults({ id, data, yaml }: RawSession, key: SessionKey): Problem[] {
  const planned = key.order.length;
  return [
    ...(key.session === id ? [] : [problemAt(yaml.placeOf(['keySha256']), messages.keyOfOther(key.session))]),
    ...(key.task === data.task ? [] : [problemAt(yaml.placeOf(['task']), messages.keyTask(key.task))]),
    ...(data.plannedTrials === planned
      ? []
      : [problemAt(yaml.placeOf(['plannedTrials']), messages.keyTrials(planned))]),
  ];
}

/** Trials that are not the ones that were drawn. */
function orderFaults({ data, yaml }: RawSession, { order }: SessionKey): Problem[] {
  return data.trials.flatMap(({ played }, index) => {
    const drawn = order[index];
    if (drawn === played) return [];
    const fault =
      drawn === undefined ? messages.keyNoTrial(order.length) : messages.keyPlayed(index + 1, drawn);
    return [problemAt(yaml.placeOf(['trials', index, 'played']), fault)];
  });
}
