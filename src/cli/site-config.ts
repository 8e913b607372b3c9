import { mkdirSync, rmSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { unified } from '@astrojs/markdown-remark';
import sitemap from '@astrojs/sitemap';
import type { AstroInlineConfig, AstroIntegration } from 'astro';
import baseConfig from '../../astro.config.mjs';
import type { Journal } from '../journal/index.ts';
import { markdownSteps } from '../journal/index.ts';
import { workFolder } from '../journal/publishing/work-folder.ts';
import { packageFolder } from './paths.ts';
import { usePictureFonts } from './picture-fonts.ts';

export interface SiteAddress {
  /** Address prefix with a slash at both ends. */
  base: string;
  /** Address of the published site, where it is known. */
  site: string | null;
  /** Where the site is made; the journal's own work folder unless stated. */
  root?: string;
}

/**
 * The Astro configuration of one journal. Each journal has its own root, `.quiescent` inside it, so that no
 * two journals share a content store; the root finds packages through a link to where Astro was found.
 */
export function siteConfig(
  journal: Journal,
  { base, site, root = workFolder(journal) }: SiteAddress,
): AstroInlineConfig {
  const modules = linkModules(root);
  const { remarkPlugins, rehypePlugins } = markdownSteps(journal.folder, base);
  const address = siteOf(journal, site);
  if (address !== null) usePictureFonts();
  return {
    ...baseConfig,
    integrations: [...(baseConfig.integrations ?? []), ...(address === null ? [] : [inOrder(sitemap())])],
    configFile: false,
    logLevel: 'warn',
    root,
    base,
    srcDir: path.join(packageFolder, 'src'),
    publicDir: path.join(journal.folder, 'static'),
    outDir: path.join(root, 'site'),
    cacheDir: path.join(root, 'cache'),
    ...(address === null ? {} : { site: address }),
    markdown: { syntaxHighlight: 'prism', processor: unified({ remarkPlugins, rehypePlugins }) },
    vite: {
      ...baseConfig.vite,
      cacheDir: path.join(root, 'vite'),
      server: { fs: { allow: [journal.folder, packageFolder, modules] } },
    },
  };
}

/** An integration that is told of pages in the order of their addresses, whichever was finished first. */
function inOrder(integration: AstroIntegration): AstroIntegration {
  const { hooks } = integration;
  const done = hooks['astro:build:done'];
  return {
    ...integration,
    hooks: {
      ...hooks,
      'astro:build:done': (options) =>
        done?.({
          ...options,
          pages: options.pages.toSorted((a, b) => (a.pathname < b.pathname ? -1 : 1)),
        }),
    },
  };
}

/** Address of the published site: the command line's, else the journal's; null where neither states one. */
export function siteOf({ settings }: Pick<Journal, 'settings'>, stated: string | null): string | null {
  return stated ?? settings.site ?? null;
}

/** Makes `<root>/node_modules` a link to the folder that holds Astro, and answers with that folder. */
function linkModules(root: string): string {
  const found = createRequire(import.meta.url).resolve('astro/package.json');
  const modules = path.resolve(path.dirname(found), '..');
  const link = path.join(root, 'node_modules');
  mkdirSync(root, { recursive: true });
  rmSync(link, { force: true, recursive: false });
  symlinkSync(modules, link, 'junction');
  return modules;
}
