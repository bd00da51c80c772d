import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import createModule from 'soundswallower';
import { readContrasts } from '../grammar';
import type { SpeechModule } from './decoder';
import { EmbeddedRecogniser, type EmbeddedOptions } from './embedded';
import { readRescorer } from './rescorer/files';
import { openRescorer, type Rescorer } from './rescorer/rescorer';

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

/** Opens the network that weighs sentences, or answers null when set-up could not fetch it. */
export async function installedRescorer(): Promise<Rescorer | null> {
  const folder = join(MODELS, 'rescorer');
  if (!existsSync(join(folder, 'made.json'))) return null;
  const [runtime, parts] = await Promise.all([import('onnxruntime-web'), readRescorer(async (name) => new Uint8Array(readFileSync(join(folder, name))))]);
  return openRescorer(runtime, parts);
}

/**
 * The embedded engine for tests, the headless command and benchmarks. Not loaded yet: await load(), then setGrammar().
 * @param options.modelDir folder of the model files; the installed model by default
 */
export function createNodeRecogniser(options: Partial<Pick<EmbeddedOptions, 'modelDir' | 'profile' | 'keepAudio' | 'partials' | 'newId' | 'sameMeaning' | 'settings' | 'onHearing' | 'startModule' | 'openRescorer'>> = {}): EmbeddedRecogniser {
  const model = options.modelDir ? { dir: options.modelDir, name: options.modelDir } : installedModel();
  return new EmbeddedRecogniser({
    startModule: startNodeModule, openRescorer: installedRescorer, modelDir: model.dir, modelName: model.name, ...(model.note ? { note: model.note } : {}),
    contrasts: readContrasts(readFileSync(CONTRASTS, 'utf8')), ...options,
  });
}
