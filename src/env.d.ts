/// <reference types="astro/client" />

declare module '*/astro.config.mjs' {
  const config: import('astro').AstroInlineConfig;
  export default config;
}
