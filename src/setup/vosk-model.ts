/**
 * Puts a model for the second engine into models/files/vosk: brings it (address, archive or folder), checks it, reads its
 * words, finds spellings for the grammar's words that it lacks, and packs it as the engine wants it. Everything is made in a
 * folder beside the place and moved there in one step, so a failure of any kind leaves what was there before.
 */
import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statfsSync, statSync, writeFileSync } from 'node:fs';
import { basename, join, relative, resolve, sep } from 'node:path';
import { Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { unzip, type Unzipped } from 'fflate';
import { packTar, unpackTar } from 'modern-tar';
import { INSTALLED, SOUNDS_LIKE, type InstalledModel } from '../recogniser/vosk/installed';
import { soundsLike, someOf, type Lexicon, type Overrides, type SoundsLike } from '../recogniser/vosk/sounds-like';
import { readVocabulary } from '../recogniser/vosk/symbol-table';

/** Files of a model by their path inside it. */
export type ModelFiles = ReadonlyMap<string, Uint8Array>;

export interface Manifest { readonly name: string; readonly title: string; readonly licence: string; readonly url: string; readonly sha256: string }

/** The words that can be said, and what is known about how words sound. */
export interface Language { readonly grammarWords: Lexicon; readonly lexicon: Lexicon; readonly overrides: Overrides }

export interface InstallOptions {
  readonly manifest: Manifest;
  readonly language: Language;
  /** Folder that holds the folder `vosk`: models/files. */
  readonly filesDir: string;
  /** Address, archive or folder; the manifest's address if absent. */
  readonly from?: string;
  /** What the archive must hash to, if not what the manifest says. */
  readonly sha256?: string;
  readonly log?: (line: string) => void;
  readonly signal?: AbortSignal;
  /** Seconds without a byte after which a download is given up. */
  readonly stallSeconds?: number;
  /** Free bytes on the disk of a folder. */
  readonly freeBytes?: (folder: string) => number;
}

/** A failure whose message says what happened and what to do. */
export class InstallError extends Error {
  override readonly name = 'InstallError';
}

/** Unpacked, all of a model is in the browser's memory; this much was tried there (Chromium 156: ready after 16 s). */
const LARGEST_MODEL = 400_000_000;
const VOCABULARY = 'vocabulary.txt';
const NOTHING = 'Nothing was installed.';

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
const TOO_LARGE = `The archive unpacks to more than ${megabytes(LARGEST_MODEL)}, more than a browser should hold. ${NOTHING} Take a small model.`;
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A failure of system or network in plain words. */
export function explain(error: unknown, doing: string): InstallError {
  if (error instanceof InstallError) return error;
  const { code, name, message, cause } = error as NodeJS.ErrnoException & { cause?: NodeJS.ErrnoException };
  const reason = code ?? cause?.code;
  if (name === 'AbortError') return new InstallError(`Interrupted while ${doing}. ${NOTHING} Run it again when you like.`);
  if (reason === 'ENOSPC' || reason === 'EDQUOT') return new InstallError(`The disk is full (while ${doing}). ${NOTHING} Make room and run it again.`);
  if (reason === 'EACCES' || reason === 'EPERM' || reason === 'EROFS') return new InstallError(`No permission (while ${doing}): ${message}. ${NOTHING}`);
  if (message === 'fetch failed' || /^(ENOTFOUND|EAI_AGAIN|ECONN|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH|UND_ERR)/.test(reason ?? ''))
    return new InstallError(`No network, or the address does not answer (${cause?.message ?? message}, while ${doing}). ${NOTHING} Get the archive on another computer and run: npm run model:vosk -- PATH`);
  return new InstallError(`${message} (while ${doing}). ${NOTHING}`);
}

async function step<T>(doing: string, work: () => Promise<T> | T): Promise<T> {
  try { return await work(); } catch (error) { throw explain(error, doing); }
}

const isAddress = (from: string): boolean => /^https?:\/\//i.test(from);

/** Downloads into a file, telling every tenth part; gives up when nothing comes for a while. */
async function download(url: string, target: string, { log = () => {}, signal, stallSeconds = 60 }: InstallOptions): Promise<void> {
  const stall = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const wait = (): void => { clearTimeout(timer); timer = setTimeout(() => stall.abort(new InstallError(`Nothing has come from ${url} for ${stallSeconds} s. ${NOTHING} Run it again.`)), stallSeconds * 1000); };
  wait();
  try {
    const answer = await fetch(url, { signal: AbortSignal.any([stall.signal, ...(signal ? [signal] : [])]) });
    if (!answer.ok || !answer.body) throw new InstallError(`${url} answers ${answer.status} ${answer.statusText}. ${NOTHING} Look the model up on its authors' site and give its address or file: npm run model:vosk -- PATH_OR_URL`);
    const total = Number(answer.headers.get('content-length')) || 0;
    if (total > LARGEST_MODEL) throw new InstallError(`${url} holds ${megabytes(total)}, more than a browser can use. ${NOTHING} Take a small model.`);
    let got = 0;
    let told = 0;
    const progress = new Transform({
      transform(chunk: Buffer, _encoding, next) {
        wait();
        got += chunk.length;
        if (got > LARGEST_MODEL) { next(new InstallError(`${url} holds more than ${megabytes(LARGEST_MODEL)}. ${NOTHING}`)); return; }
        const tenth = total ? Math.floor((10 * got) / total) : Math.floor(got / 1e7);
        if (tenth > told) { told = tenth; log(total ? `  ${tenth * 10} % of ${megabytes(total)}` : `  ${megabytes(got)}`); }
        next(null, chunk);
      },
    });
    await pipeline(Readable.fromWeb(answer.body as import('node:stream/web').ReadableStream), progress, createWriteStream(target), { signal: signal ?? new AbortController().signal });
    if (total && got !== total) throw new InstallError(`The download broke off at ${megabytes(got)} of ${megabytes(total)}. ${NOTHING} Run it again.`);
  } finally {
    clearTimeout(timer);
  }
}

async function hashFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}

function readFolder(folder: string): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  let sum = 0;
  const walk = (at: string): void => {
    for (const entry of readdirSync(at, { withFileTypes: true })) {
      const path = join(at, entry.name);
      if (entry.isDirectory()) walk(path);
      if (!entry.isFile()) continue;
      sum += statSync(path).size;
      if (sum > LARGEST_MODEL) throw new InstallError(`${folder} holds more than ${megabytes(LARGEST_MODEL)}, more than a browser should hold: is it really the folder of a small model? ${NOTHING}`);
      files.set(relative(folder, path).split(sep).join('/'), readFileSync(path));
    }
  };
  walk(folder);
  return files;
}

async function readZip(bytes: Uint8Array): Promise<Map<string, Uint8Array>> {
  let sum = 0;
  const content = await new Promise<Unzipped>((done, failed) =>
    unzip(bytes, { filter: ({ originalSize }) => { sum += originalSize; return sum <= LARGEST_MODEL; } }, (error, files) => (error ? failed(error) : done(files))));
  if (sum > LARGEST_MODEL) throw new InstallError(TOO_LARGE);
  return new Map(Object.entries(content).filter(([name]) => !name.endsWith('/')));
}

async function readTar(bytes: Uint8Array): Promise<Map<string, Uint8Array>> {
  const entries = await unpackTar(bytes, { strict: true });
  return new Map(entries.flatMap(({ header, data }) => (header.type === 'file' && data ? [[header.name, data] as const] : [])));
}

const startsWith = (bytes: Uint8Array, ...mark: number[]): boolean => mark.every((value, n) => bytes[n] === value);
const isTar = (bytes: Uint8Array): boolean => new TextDecoder().decode(bytes.subarray(257, 262)) === 'ustar';

/** The files inside a zip, tar or tar.gz, told apart by their content. */
export async function readArchive(bytes: Uint8Array, name: string): Promise<ModelFiles> {
  const damaged = (error: unknown): never => {
    if (error instanceof InstallError) throw error;
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') throw new InstallError(TOO_LARGE);
    throw new InstallError(`${name} is damaged or incomplete (${(error as Error).message}). ${NOTHING} Get it again.`);
  };
  if (startsWith(bytes, 0x50, 0x4b, 3, 4)) return readZip(bytes).catch(damaged);
  if (isTar(bytes)) return readTar(bytes).catch(damaged);
  if (startsWith(bytes, 0x1f, 0x8b)) {
    const plain = await promisify(gunzip)(bytes, { maxOutputLength: LARGEST_MODEL }).catch(damaged) as Uint8Array;
    if (isTar(plain)) return readTar(plain).catch(damaged);
  }
  throw new InstallError(`${name} is neither a zip nor a tar archive. ${NOTHING} Give the model's archive or its unpacked folder.`);
}

/** Takes off "./" and the one folder that archives put around a model; refuses paths that lead out of it. */
export function modelRoot(files: ModelFiles): Map<string, Uint8Array> {
  const clean = new Map([...files].map(([name, bytes]) => [name.replace(/\\/g, '/').replace(/^(\.\/)+/, ''), bytes]));
  for (const name of clean.keys()) if (name.startsWith('/') || name.split('/').includes('..')) throw new InstallError(`The archive holds a path that leads out of it ("${name}"). ${NOTHING}`);
  const tops = new Set([...clean.keys()].map((name) => name.split('/')[0]));
  const [top] = tops;
  if (tops.size !== 1 || clean.has(top ?? '')) return clean;
  return new Map([...clean].map(([name, bytes]) => [name.slice((top as string).length + 1), bytes]));
}

const FST_MARK = [0xd6, 0xfd, 0xb2, 0x7e];

/**
 * Is it a model that the engine can use? Layout as the engine's library reads it (vosk, model.cc).
 * @returns whether it can be narrowed to a grammar
 * @throws InstallError naming what is missing or wrong
 */
export function checkModel(files: ModelFiles): { readonly takesGrammar: boolean } {
  const lookahead = files.has('graph/HCLr.fst') && files.has('graph/Gr.fst');
  const missing = ['am/final.mdl', 'conf/mfcc.conf', 'conf/model.conf', 'graph/phones/word_boundary.int', ...(lookahead ? [] : ['graph/HCLG.fst', 'graph/words.txt'])].filter((name) => !files.has(name));
  if (missing.length) throw new InstallError(`This is not a model for the second engine: ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing. ${NOTHING}`);
  const head = new TextDecoder('latin1').decode(files.get('am/final.mdl')?.subarray(0, 32));
  if (!/^(\0B)?<TransitionModel>/.test(head)) throw new InstallError(`am/final.mdl is not an acoustic model (it begins with "${head.replace(/[^\x20-\x7e]/g, '?')}"). ${NOTHING}`);
  for (const name of ['graph/HCLr.fst', 'graph/Gr.fst', 'graph/HCLG.fst']) {
    const bytes = files.get(name);
    if (bytes && !startsWith(bytes, ...FST_MARK)) throw new InstallError(`${name} is not a finite-state transducer. ${NOTHING}`);
  }
  return { takesGrammar: lookahead };
}

/** The archive that the engine's library unpacks: a gzipped tar with one folder around everything. */
export async function packModel(files: ModelFiles): Promise<Uint8Array> {
  const names = [...files.keys()].sort();
  const folders = [...new Set(names.flatMap((name) => name.split('/').slice(0, -1).map((_, n, parts) => parts.slice(0, n + 1).join('/'))))].sort();
  const mtime = new Date(0);
  const tar = await packTar([
    ...['', ...folders.map((name) => `${name}/`)].map((name) => ({ header: { name: `model/${name}`, size: 0, type: 'directory' as const, mtime } })),
    ...names.map((name) => ({ header: { name: `model/${name}`, size: files.get(name)?.length ?? 0, type: 'file' as const, mtime }, body: files.get(name) })),
  ]);
  return promisify(gzip)(tar);
}

async function bring(options: InstallOptions, scratch: string): Promise<{ files: ModelFiles; name: string; source: string; published: boolean }> {
  const { from, manifest, sha256, log = () => {} } = options;
  const source = from ?? manifest.url;
  if (!isAddress(source) && !existsSync(source)) throw new InstallError(`There is no file or folder "${source}". ${NOTHING}`);
  if (!isAddress(source) && statSync(source).isDirectory()) {
    log(`Reading the folder ${source} …`);
    return { files: readFolder(resolve(source)), name: basename(resolve(source)), source: resolve(source), published: false };
  }
  const fileName = basename(isAddress(source) ? new URL(source).pathname : source);
  let path = source;
  if (isAddress(source)) {
    log(`Downloading ${source} …`);
    path = join(scratch, 'download');
    await step(`downloading ${source}`, () => download(source, path, options));
  }
  const hash = await hashFile(path);
  const isPublished = fileName === `${manifest.name}.zip`;
  const wanted = sha256?.toLowerCase() ?? (isPublished ? manifest.sha256 : undefined);
  if (wanted && hash !== wanted) throw new InstallError(`${fileName} is not the file it should be: its sha256 is ${hash} instead of ${wanted}. It is damaged or was changed. ${NOTHING} Get it again from ${manifest.url}.`);
  log(wanted ? `sha256 checked: ${hash}` : `sha256: ${hash} (a file of your own: there is nothing to check it against)`);
  const bytes = readFileSync(path);
  if (path !== source) rmSync(path);
  return { files: await readArchive(bytes, fileName), name: fileName.replace(/(\.tar)?\.(zip|tar|gz|tgz)$/i, ''), source, published: hash === manifest.sha256 };
}

function spell(vocabulary: ReadonlySet<string>, { grammarWords, lexicon, overrides }: Language, log: (line: string) => void): SoundsLike {
  const result = soundsLike(grammarWords, vocabulary, lexicon, overrides);
  const spelled = Object.keys(result.spellings).length;
  const unheard = Object.keys(result.unheard);
  log(`Words of the grammar: the model has ${result.known.length}; ${spelled} more are heard by words that sound like them (${SOUNDS_LIKE}).`);
  if (unheard.length) log(`  It cannot hear ${someOf(unheard)}. Spellings for them can be given in grammars/sounds-like.json.`);
  return result;
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;

const oldOf = (target: string): string => `${target}.old`;

/** Brings back what was there when an earlier run was killed between the two steps of a swap. */
function recover(target: string): void {
  if (!existsSync(target) && existsSync(oldOf(target))) renameSync(oldOf(target), target);
}

/** Moves a finished folder to its place; what was there comes back if that fails. */
function swap(staged: string, target: string): void {
  const old = oldOf(target);
  rmSync(old, { recursive: true, force: true });
  if (existsSync(target)) renameSync(target, old);
  try {
    renameSync(staged, target);
  } catch (error) {
    if (existsSync(old)) renameSync(old, target);
    throw error;
  }
  rmSync(old, { recursive: true, force: true });
}

/**
 * Installs a model. See the top of the file.
 * @returns what was installed
 * @throws InstallError with a message for the terminal
 */
export async function installModel(options: InstallOptions): Promise<InstalledModel> {
  const { manifest, language, filesDir, log = () => {}, signal, freeBytes = (folder) => { const { bavail, bsize } = statfsSync(folder); return bavail * bsize; } } = options;
  const target = join(filesDir, 'vosk');
  const staged = `${target}.part`;
  try {
    await step(`making ${staged}`, () => { recover(target); rmSync(staged, { recursive: true, force: true }); mkdirSync(staged, { recursive: true }); });
    const brought = await step('reading the model', () => bring(options, staged));
    const files = modelRoot(brought.files);
    const { takesGrammar } = checkModel(files);
    const vocabulary = await step('reading the model\'s words', () => readVocabulary(files));
    log(`${vocabulary.size} words in the model.`);
    const spelled = await step('finding spellings', () => spell(vocabulary, language, log));
    signal?.throwIfAborted();
    log('Packing …');
    const archive = await packModel(files);
    const free = freeBytes(staged);
    if (free < archive.length) throw new InstallError(`The disk is full: ${megabytes(archive.length)} are needed in ${filesDir} and ${megabytes(free)} are free. ${NOTHING} Make room and run it again.`);
    const sha256 = hashOf(archive);
    const installed: InstalledModel = {
      name: brought.published ? manifest.name : brought.name,
      licence: brought.published ? manifest.licence : 'as its authors say (not the published file of the manifest)',
      source: brought.source, archive: `model-${sha256.slice(0, 12)}.tgz`, sha256, archiveBytes: archive.length,
      unpackedBytes: [...files.values()].reduce((sum, { length }) => sum + length, 0), words: vocabulary.size, takesGrammar,
    };
    await step(`writing into ${filesDir}`, () => {
      signal?.throwIfAborted();
      writeFileSync(join(staged, installed.archive), archive);
      writeFileSync(join(staged, VOCABULARY), `${[...vocabulary].sort().join('\n')}\n`);
      writeFileSync(join(staged, SOUNDS_LIKE), json(spelled));
      writeFileSync(join(staged, INSTALLED), json(installed));
      swap(staged, target);
    });
    log(`Installed: ${installed.name}, ${megabytes(installed.archiveBytes)} packed, ${megabytes(installed.unpackedBytes)} in the browser's memory. Licence: ${installed.licence}.`);
    if (!takesGrammar) log('Its graph cannot be narrowed to a grammar: it can only be used for free speech.');
    return installed;
  } catch (error) {
    throw explain(error, 'installing');
  } finally {
    try { rmSync(staged, { recursive: true, force: true }); } catch { /* the place itself is at fault, which has been said */ }
  }
}

/**
 * Finds the spellings anew for the installed model, after the grammar or grammars/sounds-like.json has changed.
 * @throws InstallError if none is installed
 */
export async function respell(filesDir: string, language: Language, log: (line: string) => void = () => {}): Promise<SoundsLike> {
  const folder = join(filesDir, 'vosk');
  if (!existsSync(join(folder, VOCABULARY))) throw new InstallError('No model of the second engine is installed. Run "npm run model:vosk" first.');
  const vocabulary = new Set(readFileSync(join(folder, VOCABULARY), 'utf8').split('\n').filter(Boolean));
  const spelled = await step('finding spellings', () => spell(vocabulary, language, log));
  const staged = join(folder, `${SOUNDS_LIKE}.part`);
  await step(`writing into ${folder}`, () => { writeFileSync(staged, json(spelled)); renameSync(staged, join(folder, SOUNDS_LIKE)); });
  return spelled;
}
