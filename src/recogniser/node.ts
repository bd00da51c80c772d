import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import createModule from 'soundswallower';
import { readContrasts } from '../grammar';
import type { SpeechModule } from './decoder';
import { EmbeddedRecogniser, type EmbeddedOptions } from './embedded';

const MODELS = fileURLToPath(new URL('../../models/files', import.meta.url));
const CONTRASTS = new URL('../../grammars/contrasts.txt', import.meta.url);

/** Starts the speech library in Node. */
export async function startNodeModule(): Promise<SpeechModule> {
  return (await createModule({ defaultModel: null, modelBase: '', print: () => {}, printErr: () => {} } as never)) as unknown as SpeechModule;
}

/** The model that set-up put into models/files. Throws when there is none. */
export function installedModel(): { dir: string; name: string; note?: string } {
  const path = join(MODELS, 'model.json');
  if (!existsSync(path)) throw new Error('No acoustic model is installed. Run: node src/setup/fetch-model.mjs');
  const { name, note } = JSON.parse(readFileSync(path, 'utf8')) as { name: string; note?: string };
  return { dir: join(MODELS, name), name, ...(note ? { note } : {}) };
}

/**
 * The embedded engine for tests, the headless command and benchmarks. Not loaded yet: await load(), then setGrammar().
 * @param options.modelDir folder of the model files; the installed model by default
 */
export function createNodeRecogniser(options: Partial<Pick<EmbeddedOptions, 'modelDir' | 'profile' | 'keepAudio' | 'partials' | 'newId' | 'sameMeaning' | 'settings' | 'onHearing' | 'startModule'>> = {}): EmbeddedRecogniser {
  const model = options.modelDir ? { dir: options.modelDir, name: options.modelDir } : installedModel();
  return new EmbeddedRecogniser({
    startModule: startNodeModule, modelDir: model.dir, modelName: model.name, ...(model.note ? { note: model.note } : {}),
    contrasts: readContrasts(readFileSync(CONTRASTS, 'utf8')), ...options,
  });
}
