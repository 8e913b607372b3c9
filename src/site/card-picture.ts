import { createHash } from 'node:crypto';
import path from 'node:path';
import sharp from 'sharp';
import { workFolder } from '../journal/publishing/work-folder.ts';
import { type CardTexts, cardMarkup } from './card-drawing.ts';
import { type Card, cardSize } from './cards.ts';
import { renderChart } from './drawing.ts';
import { keepOnly, keptOrMade } from './kept-files.ts';

/** Part of every key, so that a change of the design draws all cards anew. */
const design = 2;

/** Where cards are kept, and the title above each of them. */
interface Keeper {
  folder: string;
  title: string;
}

/** A card as PNG, drawn once for what is in it and kept in the journal's work folder. */
export async function cardPicture(card: Card, journal: Keeper): Promise<Buffer> {
  const texts = { site: journal.title, title: card.title };
  const file = path.join(folderOf(journal), fileOf(card, texts));
  return keptOrMade(file, () => draw(card, texts));
}

/** Removes the kept pictures of cards that are not among these. */
export async function forgetOtherCards(cards: readonly Card[], journal: Keeper): Promise<void> {
  const kept = new Set(cards.map((card) => fileOf(card, { site: journal.title, title: card.title })));
  await keepOnly(folderOf(journal), kept);
}

const folderOf = (journal: Keeper) => path.join(workFolder(journal), 'cards');

function fileOf({ chart: { spec, text } }: Card, texts: CardTexts): string {
  const { width, height } = cardSize;
  const content = JSON.stringify({ spec, text, texts, width, height, design, drawnBy: sharp.versions });
  return `${createHash('sha256').update(content).digest('hex').slice(0, 32)}.png`;
}

async function draw({ chart }: Card, texts: CardTexts): Promise<Buffer> {
  const markup = cardMarkup(await renderChart(chart), texts);
  return sharp(Buffer.from(markup)).png({ palette: true, colours: 64, compressionLevel: 9 }).toBuffer();
}
