import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import type { Fault } from '../problem/index.ts';
import { proseMessages } from './prose/messages.ts';

/** Why a picture file cannot be shown; null for a sound one. A drawing must state its size. */
export async function pictureFault(absolute: string, written: string): Promise<Fault | null> {
  if (/\.svg$/i.test(absolute)) {
    return sizedDrawing.test(await readFile(absolute, 'utf8')) ? null : proseMessages.drawingSize(written);
  }
  const sound = await sharp(absolute)
    .metadata()
    .catch(() => null);
  return sound ? null : proseMessages.pictureBroken(written);
}

const sizedDrawing =
  /<svg\s(?:[^>]*\s)?(?:viewBox\s*=|width\s*=[^>]*\sheight\s*=|height\s*=[^>]*\swidth\s*=)/i;
