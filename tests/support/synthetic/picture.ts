import sharp from 'sharp';
import type { Chance } from './chance.ts';

const [width, height] = [800, 500];

/** An invented photograph: two colours running into each other, as JPEG. */
export async function pictureBytes(chance: Chance): Promise<Uint8Array> {
  const from = [0, 1, 2].map(() => chance.between(20, 120));
  const to = [0, 1, 2].map(() => chance.between(130, 250));
  const pixels = Buffer.allocUnsafe(width * height * 3);
  for (let place = 0; place < width * height; place++) {
    const share = (place % width) / width;
    const low = place / (width * height);
    for (let colour = 0; colour < 3; colour++) {
      const mixed = (from[colour] ?? 0) * (1 - share) + (to[colour] ?? 0) * share;
      pixels[3 * place + colour] = mixed * (0.6 + 0.4 * low);
    }
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 80 })
    .toBuffer();
}
