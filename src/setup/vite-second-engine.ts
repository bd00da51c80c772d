import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Plugin, type Rolldown } from 'vite';

/** The document of the second engine and its script, by their file names in the built page. */
export interface SecondEngine { readonly 'second-engine.html': string; readonly 'second-engine.js': string }

/**
 * Builds the second engine's own document (see src/recogniser/vosk/frame.ts). Its script is one plain script and no module:
 * a sandboxed document has no origin, and browsers load modules only with the server's leave for that.
 * @param root the folder of second-engine.html: src
 */
export async function buildSecondEngine(root: string): Promise<SecondEngine> {
  const [result] = await build({
    configFile: false, logLevel: 'error', root,
    build: { write: false, target: 'es2022', lib: { entry: join(root, 'recogniser/vosk/frame.ts'), formats: ['iife'], name: 'secondEngine', fileName: 'second-engine' }, rollupOptions: { output: { codeSplitting: false } } },
  }) as Rolldown.RolldownOutput[];
  return { 'second-engine.html': readFileSync(join(root, 'second-engine.html'), 'utf8'), 'second-engine.js': (result as Rolldown.RolldownOutput).output[0].code };
}

/** Puts that document beside the built page. */
export const secondEngine = (root: string): Plugin => ({
  name: 'second-engine',
  apply: 'build',
  async generateBundle() {
    for (const [fileName, source] of Object.entries(await buildSecondEngine(root))) this.emitFile({ type: 'asset', fileName, source });
  },
});
