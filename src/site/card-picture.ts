import path from 'node:path';
import sharp from 'sharp';
import { limited } from '../journal/analysis/limited.ts';
import { sha256Of } from '../journal/analysis/sha256.ts';
import { workFolder } from '../journal/publishing/work-folder.ts';
import { cardMarkup } from './card-drawing.ts';
import type { Card } from './cards.ts';
import { renderChart } from './drawing.ts';
import { keepOnly, keptOrMade } from './kept-files.ts';

/** Part of every key, so that a change of how pictures are written draws all cards anew. */
const design = 3;

/** Where cards are kept, and the title above each of them. */
interface Keeper {
  folder: string;
  title: string;
}

/** Drawings of so many cards are held at a time. */
const mostAtOnce = 8;

/** A card as PNG, drawn once for what is in it and kept in the journal's work folder. */
export async function cardPicture(card: Card, journal: Keeper): Promise<Buffer> {
  const markup = await markupOf(card, journal);
  return keptOrMade(path.join(folderOf(journal), fileOf(markup)), () => picture(markup));
}

/** Removes the kept pictures of cards that are not among these. */
export async function forgetOtherCards(cards: readonly Card[], journal: Keeper): Promise<void> {
  const inTurn = limited(mostAtOnce);
  const files = cards.map((card) => inTurn(async () => fileOf(await markupOf(card, journal))));
  await keepOnly(folderOf(journal), new Set(await Promise.all(files)));
}

const folderOf = (journal: Keeper) => path.join(workFolder(journal), 'cards');

const markupOf = async ({ chart, title }: Card, journal: Keeper) =>
  cardMarkup(await renderChart(chart), { site: journal.title, title });

function fileOf(markup: string): string {
  const content = JSON.stringify({ markup, design, drawnBy: sharp.versions });
  return `${sha256Of(content).slice(0, 32)}.png`;
}

const picture = (markup: string): Promise<Buffer> =>
  sharp(Buffer.from(markup)).png({ palette: true, colours: 64, compressionLevel: 9 }).toBuffer();
