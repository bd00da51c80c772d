/**
 * `npm run model:vosk`: installs the model of the second engine.
 *
 *   npm run model:vosk                      downloads the small English model from its authors' site and checks it
 *   npm run model:vosk -- PATH_OR_URL       takes a zip, tar or folder instead [--sha256 HEX to check an archive of your own]
 *   npm run model:vosk -- --respell         finds the spellings of missing words anew for the installed model
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureNode, ensurePackages, ROOT, say, stop } from './steps.mjs';

const read = () => {
  try {
    return parseArgs({ allowPositionals: true, options: { sha256: { type: 'string' }, respell: { type: 'boolean' } } });
  } catch (error) {
    return stop(error.message, 'Use: npm run model:vosk [-- PATH_OR_URL] [--sha256 HEX] [--respell]');
  }
};
const { values, positionals: [from, ...more] } = read();
if (more.length) stop(`Too many paths: ${more.join(' ')}.`, 'Give one zip, tar, folder or address; put quotes around a path with spaces.');

ensureNode();
// Only if something is missing: a full check would reinstall everything under a recorder that is running.
if (!['tsx', 'fflate', 'modern-tar', 'soundswallower'].every((name) => existsSync(join(ROOT, 'node_modules', name, 'package.json')))) ensurePackages();
const { register } = await import('tsx/esm/api');
register();
const { installModel, respell } = await import('./vosk-model.ts');
const { projectLanguage } = await import('./vosk-language.ts');

const interrupted = new AbortController();
for (const name of ['SIGINT', 'SIGTERM']) process.once(name, () => interrupted.abort());
const filesDir = join(ROOT, 'models', 'files');
try {
  const language = projectLanguage();
  if (values.respell) await respell(filesDir, language, say);
  else await installModel({ manifest: JSON.parse(readFileSync(join(ROOT, 'models', 'vosk.json'), 'utf8')), language, filesDir, from, sha256: values.sha256, log: say, signal: interrupted.signal });
  say('Run "npm start" again, then choose the second engine on the start screen. It is not chosen by itself before it has figures in models/measured.json.');
} catch (error) {
  process.stderr.write(`\n${error.message}\n`);
  process.exit(interrupted.signal.aborted ? 130 : 1);
}
