import { defineConfig } from 'vitest/config';

const common = { environment: 'node', pool: 'forks', testTimeout: 120_000, hookTimeout: 120_000 } as const;

export default defineConfig({
  test: {
    // One core is left idle unless it is asked for; half of what is tested waits for builds and browsers.
    maxWorkers: '100%',
    projects: [
      {
        test: { ...common, name: 'rooms', include: ['tests/**/*.test.ts'], exclude: ['tests/published/**'] },
      },
      {
        test: {
          ...common,
          name: 'published',
          include: ['tests/published/**/*.test.ts'],
          globalSetup: ['tests/support/demo-site.ts'],
        },
      },
    ],
  },
});
