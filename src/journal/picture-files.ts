import { readFile, stat } from 'node:fs/promises';
import sharp from 'sharp';
import type { Fault } from '../problem/index.ts';
import { proseMessages as messages } from './prose/messages.ts';

/** Largest photograph, in bytes: 40 MB. */
const mostBytes = 40e6;
/** Most pixels of a photograph, those of all its frames together. */
const mostPixels = 100e6;

/** What a photograph may hold, whatever its ending; a drawing under its name would not be looked into. */
const formats: readonly string[] = ['avif', 'gif', 'heif', 'jpeg', 'png', 'tiff', 'webp'];

/** Why a picture file cannot be shown; null for a sound one. A drawing must state its size. */
export async function pictureFault(absolute: string, written: string): Promise<Fault | null> {
  if (/\.svg$/i.test(absolute))
    return sizedDrawing.test(await readFile(absolute, 'utf8')) ? null : messages.drawingSize(written);
  const { size } = await stat(absolute);
  return size > mostBytes
    ? messages.pictureBytes(written, size, mostBytes)
    : photographFault(absolute, written);
}

async function photographFault(absolute: string, written: string): Promise<Fault | null> {
  const found = await sharp(absolute)
    .metadata()
    .catch(() => null);
  if (!found || !formats.includes(found.format)) return messages.pictureBroken(written);
  const { width, height, pages = 1, pageHeight = height } = found;
  return width * Math.max(height, pages * pageHeight) > mostPixels
    ? messages.picturePixels(written, { width, height: pageHeight, pages }, mostPixels)
    : null;
}

const sizedDrawing =
  /<svg\s(?:[^>]*\s)?(?:viewBox\s*=|width\s*=[^>]*\sheight\s*=|height\s*=[^>]*\swidth\s*=)/i;
