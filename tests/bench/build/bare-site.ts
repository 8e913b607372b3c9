import { join } from 'node:path';
import { unified } from '@astrojs/markdown-remark';
import { build } from 'astro';

/** Builds the Astro project in a folder with the unified processor and nothing else; its caches stay in that folder. */
const [root = ''] = process.argv.slice(2);
process.chdir(root);
await build({
  ...{ root, configFile: false, logLevel: 'error', output: 'static', trailingSlash: 'always' },
  cacheDir: join(root, 'cache'),
  image: { layout: 'constrained', responsiveStyles: false },
  markdown: { syntaxHighlight: 'prism', processor: unified({}) },
  vite: { cacheDir: join(root, 'vite') },
});
