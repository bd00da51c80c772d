import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';
import { serveModels } from './src/setup/vite-models.ts';
import { secondEngine } from './src/setup/vite-second-engine.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here('./src'),
  publicDir: false,
  // Not 'spa': the recogniser asks for an optional model file that must answer 404, not a page.
  appType: 'mpa',
  plugins: [react(), serveModels(here('./models/files')), secondEngine(here('./src'))],
  resolve: { alias: { 'blob-polyfill': here('./src/recogniser/native-blob.ts') } },
  optimizeDeps: { exclude: ['soundswallower'] },
  worker: { format: 'es' },
  build: { outDir: here('./dist'), emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 6000 },
  test: {
    root: here('.'),
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    // Pages that listen in real time must not share the processor with other tests: they run last, one file at a time.
    projects: [
      { extends: true, test: { name: 'parts', include: ['tests/**/*.test.{ts,tsx}'], exclude: ['tests/e2e/**', '**/node_modules/**'], sequence: { groupOrder: 0 } } },
      { extends: true, test: { name: 'pages', include: ['tests/e2e/**/*.test.ts'], fileParallelism: false, sequence: { groupOrder: 1 } } },
    ],
  },
});
