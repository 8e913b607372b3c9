import mdx from '@astrojs/mdx';

/**
 * The one Astro configuration. The commands add the journal's paths, its address and its Markdown steps;
 * pages carry no inline script or style, so that a plain content security policy holds.
 *
 * @type {import('astro').AstroInlineConfig}
 */
export default {
  output: 'static',
  trailingSlash: 'always',
  compressHTML: true,
  devToolbar: { enabled: false },
  // Pages are made a few at a time, so that one is written while others wait for their charts.
  build: { format: 'directory', inlineStylesheets: 'never', assets: 'assets', concurrency: 4 },
  image: { layout: 'constrained', responsiveStyles: false },
  integrations: [mdx()],
  vite: {
    build: {
      assetsInlineLimit: 0,
      rolldownOptions: { onLog: withoutAstroDirectives },
    },
  },
};

/** Astro marks modules with a directive of its own, which the bundler warns of without need. */
function withoutAstroDirectives(level, log, report) {
  if (log.code !== 'MODULE_LEVEL_DIRECTIVE') report(level, log);
}
