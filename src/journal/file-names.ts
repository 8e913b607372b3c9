import { type Fault, type Problem, problemAt } from '../problem/index.ts';
import { fileMessages as messages } from './file-messages.ts';
import { isRecord } from './files.ts';

/** Names that Windows keeps for devices, whatever their ending. */
const devices = /^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])(?:\.|$)/i;

/**
 * Checks that every name of a journal can be copied to another system: no control characters, none that only some file
 * systems take, and no two in one folder that differ in capitals or in how their letters are composed.
 */
export function checkFileNames(files: readonly string[]): Problem[] {
  const known = new Map<string, string>();
  const looked = new Set<string>();
  return files.flatMap((file) => {
    const paths = pathsTo(file).filter((path) => !looked.has(path));
    const fault = paths
      .map((path) => faultOf(path, known.get(folded(path)), isRecord(file)))
      .find((one) => one !== null);
    for (const path of paths) {
      looked.add(path);
      if (!known.has(folded(path))) known.set(folded(path), path);
    }
    return fault ? [problemAt({ file, line: 1, column: 1 }, fault)] : [];
  });
}

/** The folders that a file stands in, from the outermost on, and the file itself. */
const pathsTo = (file: string) =>
  file.split('/').map((_, index, parts) => parts.slice(0, index + 1).join('/'));

/** A path as file systems compare it that tell neither capitals nor compositions of letters apart. */
export const folded = (path: string) => path.normalize('NFC').toLowerCase();

const unportable = /[<>:"|?*]|[. ]$/;

/** `isAddress` where the names stand in the address of a page, which is stricter in everything but a full stop at the end. */
function faultOf(path: string, other: string | undefined, isAddress: boolean): Fault | null {
  const name = path.slice(path.lastIndexOf('/') + 1);
  if (/[\p{Cc}\p{Zl}\p{Zp}\\\uFFFD]/u.test(name)) return messages.nameWithControls(name);
  if (other !== undefined) return messages.nameTwice(path, other);
  if (devices.test(name)) return messages.nameOfDevice(name);
  return (isAddress ? /\.$/ : unportable).test(name) ? messages.nameNotPortable(name) : null;
}
