import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { sha256Of } from '../../journal/analysis/sha256.ts';
import { type FontFace, fontFaces } from './font-faces.ts';
import { earlySign } from './preloads.ts';
import type { RenewedSheet } from './renewed-page.ts';
import type { SiteCharacters } from './site-characters.ts';
import { charactersOf, subsetFace } from './subset-face.ts';

interface Cutting {
  characters: SiteCharacters;
  /** Folder that keeps fonts for the next build. */
  folder: string;
}

/** One face with the name of its new font, and the name that this has among those kept. */
interface CutFace {
  face: FontFace;
  file: string;
  kept: string;
}

/** Cuts the fonts of a style sheet and writes both under new names; null for a sheet without fonts. */
export async function renewSheet(file: string, cutting: Cutting): Promise<RenewedSheet | null> {
  const sheet = await readFile(file, 'utf8');
  const faces = fontFaces(sheet);
  if (faces.length === 0) return null;
  const folder = path.dirname(file);
  const cut: CutFace[] = [];
  for (const face of faces) cut.push(...(await cutFace(face, folder, cutting)));
  const renewed = withCutFaces(sheet, faces, cut);
  const after = namedByContent(path.basename(file), renewed);
  await writeFile(path.join(folder, after), renewed);
  const preloads = cut.flatMap(({ face, file: font }) => {
    const sign = earlySign(face);
    return sign === null ? [] : [{ file: font, sign }];
  });
  const outdated = [file, ...faces.map(({ file: font }) => path.join(folder, font))];
  return { before: path.basename(file), after, preloads, kept: cut.map(({ kept }) => kept), outdated };
}

async function cutFace(
  face: FontFace,
  folder: string,
  { characters, folder: keeper }: Cutting,
): Promise<CutFace[]> {
  const wanted = charactersOf(face, characters);
  if (wanted === '') return [];
  const font = await readFile(path.join(folder, face.file));
  const { bytes, kept } = await subsetFace(face, { font, characters: wanted, folder: keeper });
  const file = namedByContent(face.file, bytes);
  await writeFile(path.join(folder, file), bytes);
  return [{ face, file, kept }];
}

/** The sheet with the new names of its fonts; a face that was not cut, as the site has no letter of it, is left out. */
function withCutFaces(sheet: string, faces: readonly FontFace[], cut: readonly CutFace[]): string {
  return faces.reduce((text, face) => {
    const file = cut.find((one) => one.face === face)?.file;
    return text.replace(face.rule, () => (file === undefined ? '' : face.rule.replace(face.file, file)));
  }, sheet);
}

/** The name of a file with the part before its ending taken from what is in it. */
function namedByContent(name: string, content: string | Buffer): string {
  const [, stem = '', ending = ''] = /^(.*?)(?:\.[\w-]{8})?(\.\w+)$/.exec(name) ?? [];
  return `${stem}.${sha256Of(content).slice(0, 8)}${ending}`;
}
