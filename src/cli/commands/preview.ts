import { existsSync } from 'node:fs';
import path from 'node:path';
import { preview as previewSite } from 'astro';
import baseConfig from '../../../astro.config.mjs';
import type { Output } from '../output.ts';
import { fromCaller, packageFolder, shownPath } from '../paths.ts';
import { mendSwap } from '../place/swap.ts';

export interface PreviewOptions {
  out: string;
  port: number;
  base: string;
}

/** Serves the built site on this machine until it is stopped. */
export async function preview({ out, port, base }: PreviewOptions, output: Output): Promise<number> {
  const outDir = fromCaller(out);
  await mendSwap(outDir);
  if (!existsSync(path.join(outDir, 'index.html'))) {
    output.notice(`There is no site in ${shownPath(outDir)}. Build it first with the build command.`);
    return 1;
  }
  const server = await previewSite({
    ...baseConfig,
    configFile: false,
    logLevel: 'warn',
    root: packageFolder,
    base,
    outDir,
    server: { port, host: '127.0.0.1' },
  });
  output.notice(`The site is at http://127.0.0.1:${server.port}${base} until you press ctrl-C.`);
  await server.closed();
  return 0;
}
