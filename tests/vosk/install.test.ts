import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { spawn, spawnSync } from 'node:child_process';
import { zipSync as zip, type Zippable } from 'fflate';
import { unpackTar } from 'modern-tar';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { checkModel, explain, installModel, modelRoot, respell, type InstallOptions, type Language } from '../../src/setup/vosk-model';

const fixture = (name: string): Uint8Array => readFileSync(new URL(`./fixtures/${name}`, import.meta.url));
/** Zips differ by their times otherwise. */
const zipSync = (files: Zippable): Uint8Array => zip(files, { mtime: '2026-01-01T00:00:00Z' });
const text = (value: string): Uint8Array => new TextEncoder().encode(value);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The layout of a small model with real transducers and nothing behind them: enough for set-up, not for hearing. */
const MODEL: Readonly<Record<string, Uint8Array>> = {
  'am/final.mdl': text('\0B<TransitionModel> nothing follows'),
  'conf/mfcc.conf': text('--use-energy=false\n'),
  'conf/model.conf': text('--min-active=200\n'),
  'graph/HCLr.fst': fixture('const.fst'),
  'graph/Gr.fst': fixture('acceptor.fst'),
  'graph/phones/word_boundary.int': text('1 nonword\n'),
};
const inFolder = (files: Readonly<Record<string, Uint8Array>>, folder = 'tiny-model'): Record<string, Uint8Array> => Object.fromEntries(Object.entries(files).map(([name, bytes]) => [`${folder}/${name}`, bytes]));
const without = (name: string): Record<string, Uint8Array> => Object.fromEntries(Object.entries(MODEL).filter(([other]) => other !== name));

const LANGUAGE: Language = {
  grammarWords: new Map([['the', ['DH AH']], ['numb', ['N AH M']], ['fingers', ['F IH NG G ER Z']], ['zzyzx', ['Z AY Z IH K S']]]),
  lexicon: new Map([['the', ['DH AH']], ['finger', ['F IH NG G ER']], ['index', ['IH N D EH K S']]]),
  overrides: {},
};

let closedPort: number;
beforeAll(async () => {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  closedPort = (server.address() as AddressInfo).port;
  await new Promise((done) => server.close(done));
});

let home: string;
let filesDir: string;
let told: string[];
const options = (more: Partial<InstallOptions> = {}): InstallOptions => ({
  manifest: { name: 'tiny-model', title: 'Tiny', licence: 'Apache-2.0', url: `http://127.0.0.1:${closedPort}/tiny-model.zip`, sha256: sha256(zipSync(inFolder(MODEL))) },
  language: LANGUAGE, filesDir, log: (line) => told.push(line), ...more,
});
const put = (name: string, bytes: Uint8Array): string => {
  const path = join(home, name);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, bytes);
  return path;
};
const isClean = (): void => { expect(existsSync(filesDir) ? readdirSync(filesDir) : []).toEqual([]); };

beforeEach(() => { home = mkdtempSync(join(tmpdir(), 'vosk-install-')); filesDir = join(home, 'files'); told = []; });
afterEach(() => rmSync(home, { recursive: true, force: true }));

describe('a model is installed', () => {
  const sources: Record<string, () => string> = {
    'a folder': () => { for (const [name, bytes] of Object.entries(MODEL)) put(`plain/${name}`, bytes); return join(home, 'plain'); },
    'a folder with the model inside it': () => { for (const [name, bytes] of Object.entries(inFolder(MODEL))) put(`outer/${name}`, bytes); return join(home, 'outer'); },
    'a zip': () => put('tiny-model.zip', zipSync(inFolder(MODEL))),
    // Made by the tar of the system, not by the library that reads it here.
    'a tar': () => { const folder = sources['a folder']!(); spawnSync('tar', ['-cf', join(home, 'own.tar'), '-C', dirname(folder), 'plain']); return join(home, 'own.tar'); },
    'a tar.gz': () => { const folder = sources['a folder']!(); spawnSync('tar', ['-czf', join(home, 'own.tar.gz'), '-C', folder, '.']); return join(home, 'own.tar.gz'); },
  };

  it.each(Object.keys(sources))('from %s', async (kind) => {
    const installed = await installModel(options({ from: sources[kind]!() }));
    const folder = join(filesDir, 'vosk');
    const archive = readFileSync(join(folder, installed.archive));
    expect(sha256(archive)).toBe(installed.sha256);
    expect(installed).toMatchObject({ takesGrammar: true, words: 6, archiveBytes: archive.length });
    // What the engine's library will find: one folder around the model.
    const entries = await unpackTar(gunzipSync(archive));
    expect(Object.fromEntries(entries.flatMap(({ header, data }) => (header.type === 'file' ? [[header.name, sha256(data!)]] : [])))).toEqual(Object.fromEntries(Object.entries(inFolder(MODEL, 'model')).map(([name, bytes]) => [name, sha256(bytes)])));
    expect(JSON.parse(readFileSync(join(folder, 'installed.json'), 'utf8'))).toEqual(installed);
    expect(JSON.parse(readFileSync(join(folder, 'sounds-like.json'), 'utf8'))).toMatchObject({ known: ['numb', 'the'], unheard: { zzyzx: expect.any(String) as string } });
    expect(readFileSync(join(folder, 'vocabulary.txt'), 'utf8').trim().split('\n')).toContain("don't");
    expect(readdirSync(filesDir)).toEqual(['vosk']);
    expect(told.join('\n')).toMatch(/Licence: /);
  });

  it('the same packs to the same bytes', async () => {
    const first = await installModel(options({ from: sources['a zip']!() }));
    const second = await installModel(options({ from: sources['a folder']!() }));
    expect(second.sha256).toBe(first.sha256);
  });

  it('and read by the tar of the system', async () => {
    const { archive } = await installModel(options({ from: sources['a zip']!() }));
    const listed = spawnSync('tar', ['-tzf', join(filesDir, 'vosk', archive)], { encoding: 'utf8' });
    expect(listed.stdout.trim().split('\n')).toEqual(expect.arrayContaining(['model/', 'model/am/', 'model/am/final.mdl', 'model/graph/phones/word_boundary.int']));
  });

  it('after a run that was killed while it put the new one in place: what was there is not lost', async () => {
    await installModel(options({ from: sources['a zip']!() }));
    renameSync(join(filesDir, 'vosk'), join(filesDir, 'vosk.old'));
    await expect(installModel(options({ from: join(home, 'none.zip') }))).rejects.toThrow(/There is no file/);
    expect(readdirSync(filesDir)).toEqual(['vosk']);
    expect(readdirSync(join(filesDir, 'vosk'))).toContain('installed.json');
  });

  it('in place of the old one, and the spellings can be found anew', async () => {
    await installModel(options({ from: sources['a zip']!() }));
    const changed = { ...LANGUAGE, overrides: { zzyzx: ['index index'] } };
    await respell(filesDir, changed);
    expect(JSON.parse(readFileSync(join(filesDir, 'vosk', 'sounds-like.json'), 'utf8'))).toMatchObject({ unheard: {}, spellings: { zzyzx: [{ words: ['index', 'index'], by: 'hand' }] } });
    await installModel(options({ from: put('other.zip', zipSync({ ...inFolder(MODEL), 'tiny-model/README': text('new') })) }));
    expect(readdirSync(join(filesDir, 'vosk')).filter((name) => name.startsWith('model-'))).toHaveLength(1);
  });
});

describe('a failure says what happened and leaves what was there', () => {
  const cases: readonly (readonly [string, () => Partial<InstallOptions>, RegExp])[] = [
    ['no such file', () => ({ from: join(home, 'none.zip') }), /There is no file or folder/],
    ['another file under the published name', () => ({ from: put('tiny-model.zip', zipSync({ ...inFolder(MODEL), 'tiny-model/x': text('x') })) }), /is not the file it should be: its sha256 is [0-9a-f]{64} instead of/],
    ['a hash given by the user that differs', () => ({ from: put('own.zip', zipSync(inFolder(MODEL))), sha256: '0'.repeat(64) }), /instead of 0{64}/],
    ['neither zip nor tar', () => ({ from: put('own.zip', text('hello')) }), /neither a zip nor a tar archive/],
    ['an empty file', () => ({ from: put('own.zip', new Uint8Array()) }), /neither a zip nor a tar archive/],
    ['a zip cut off', () => ({ from: put('own.zip', zipSync(inFolder(MODEL)).subarray(0, 700)) }), /own\.zip is damaged or incomplete/],
    ['a tar.gz cut off', () => { const bytes = readFileSync(put('x', spawnSync('tar', ['-czf', '-', '-C', new URL('./fixtures', import.meta.url).pathname, '.']).stdout)); return { from: put('own.tar.gz', bytes.subarray(0, bytes.length - 40)) }; }, /damaged or incomplete/],
    ['another kind of archive', () => ({ from: put('own.zip', zipSync({ 'photos/one.jpg': text('x') })) }), /This is not a model for the second engine: am\/final\.mdl, conf\/mfcc\.conf/],
    ['no word table', () => ({ from: put('own.zip', zipSync(inFolder({ ...MODEL, 'graph/Gr.fst': fixture('bare.fst') }))) }), /graph\/Gr\.fst: The transducer carries no symbol table/],
    ['a wrong acoustic model', () => ({ from: put('own.zip', zipSync(inFolder({ ...MODEL, 'am/final.mdl': text('GGUF....') }))) }), /am\/final\.mdl is not an acoustic model \(it begins with "GGUF/],
    ['a path that leads out of the archive', () => ({ from: put('own.zip', zipSync({ '../evil': text('x'), ...inFolder(MODEL) })) }), /leads out of it/],
    ['a nearly full disk', () => ({ from: put('own.zip', zipSync(inFolder(MODEL))), freeBytes: () => 100 }), /The disk is full: .* are needed/],
    ['an unwritable place', () => ({ from: put('own.zip', zipSync(inFolder(MODEL))), filesDir: put('afile', text('')) }), /Nothing was installed/],
    ['no network', () => ({}), /No network, or the address does not answer .*ECONNREFUSED.* npm run model:vosk -- PATH/],
    ['interrupted', () => ({ from: put('own.zip', zipSync(inFolder(MODEL))), signal: AbortSignal.abort() }), /^Interrupted while .*\. Nothing was installed/],
    ['a spelling by hand that cannot be', () => ({ from: put('own.zip', zipSync(inFolder(MODEL))), language: { ...LANGUAGE, overrides: { fingers: ['the'] } } }), /"the" for "fingers": "the" is a word of the grammar itself/],
  ];

  it.each(cases)('%s, with nothing installed before', async (_, change, message) => {
    await expect(installModel(options(change()))).rejects.toThrow(message);
    isClean();
  });

  it.each(cases)('%s, with a model installed before', async (_, change, message) => {
    await installModel(options({ from: put('good.zip', zipSync(inFolder(MODEL))) }));
    const before = readdirSync(join(filesDir, 'vosk')).map((name) => [name, sha256(readFileSync(join(filesDir, 'vosk', name)))]);
    await expect(installModel(options(change()))).rejects.toThrow(message);
    expect(readdirSync(filesDir)).toEqual(['vosk']);
    expect(readdirSync(join(filesDir, 'vosk')).map((name) => [name, sha256(readFileSync(join(filesDir, 'vosk', name)))])).toEqual(before);
  });

  it.each(Object.keys(MODEL))('without %s it is no model', (name) => {
    expect(() => checkModel(new Map(Object.entries(without(name))))).toThrow(/^This is not a model for the second engine: .* (is|are) missing/);
  });

  it('a model too large for a browser, as a folder or unpacked from an archive', async () => {
    const home = dirname(put('large/am/final.mdl', text('')));
    truncateSync(join(home, 'final.mdl'), 400_000_001);
    await expect(installModel(options({ from: dirname(home) }))).rejects.toThrow(/large holds more than 400 MB, more than a browser should hold/);
    const archive = put('large.tar.gz', gzipSync(new Uint8Array(400_000_001), { level: 1 }));
    await expect(installModel(options({ from: archive }))).rejects.toThrow(/^The archive unpacks to more than 400 MB.* Take a small model\./);
    isClean();
  });

  it('a model whose graph is fixed can only be used freely', () => {
    const { 'graph/HCLr.fst': _h, 'graph/Gr.fst': _g, ...rest } = MODEL;
    expect(checkModel(new Map(Object.entries({ ...rest, 'graph/HCLG.fst': fixture('const.fst'), 'graph/words.txt': text('the 1\n') })))).toEqual({ takesGrammar: false });
  });

  it('a full disk, as the system reports it', () => {
    let error: unknown;
    try { writeFileSync('/dev/full', 'x'); } catch (caught) { error = caught; }
    expect((error as NodeJS.ErrnoException).code).toBe('ENOSPC');
    expect(explain(error, 'writing').message).toBe('The disk is full (while writing). Nothing was installed. Make room and run it again.');
  });

  it('respelling without a model', async () => {
    await expect(respell(filesDir, LANGUAGE)).rejects.toThrow('No model of the second engine is installed.');
  });
});

describe('from an address', () => {
  let server: Server;
  let answer: (response: import('node:http').ServerResponse) => void;
  let url: string;
  const bytes = zipSync(inFolder(MODEL));
  beforeEach(async () => {
    server = createServer((_, response) => answer(response));
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/tiny-model.zip`;
  });
  afterEach(() => { server.closeAllConnections(); server.close(); });
  const manifest = (): InstallOptions['manifest'] => ({ ...options().manifest, url });

  it('downloads, checks the hash, tells progress and licence', async () => {
    answer = (response) => { response.setHeader('content-length', bytes.length); response.end(bytes); };
    expect(await installModel(options({ manifest: manifest() }))).toMatchObject({ name: 'tiny-model', licence: 'Apache-2.0', source: url });
    expect(told).toContainEqual(expect.stringMatching(/^sha256 checked: /));
    expect(told).toContainEqual(expect.stringMatching(/^ {2}100 % of /));
  });

  it('refuses what is not the published file', async () => {
    answer = (response) => response.end(zipSync({ ...inFolder(MODEL), 'tiny-model/more': text('x') }));
    await expect(installModel(options({ manifest: manifest() }))).rejects.toThrow(/is not the file it should be/);
    isClean();
  });

  it('says what the server said', async () => {
    answer = (response) => { response.statusCode = 404; response.end(); };
    await expect(installModel(options({ manifest: manifest() }))).rejects.toThrow(/answers 404 Not Found/);
    isClean();
  });

  it('survives a connection that breaks', async () => {
    answer = (response) => { response.setHeader('content-length', bytes.length); response.write(bytes.subarray(0, 500), () => response.destroy()); };
    await expect(installModel(options({ manifest: manifest() }))).rejects.toThrow(/Nothing was installed/);
    isClean();
  });

  it('gives up when nothing more comes', async () => {
    answer = (response) => { response.setHeader('content-length', bytes.length); response.write(bytes.subarray(0, 500)); };
    await expect(installModel(options({ manifest: manifest(), stallSeconds: 1 }))).rejects.toThrow(/^Nothing has come from .* for 1 s\. Nothing was installed\. Run it again\.$/);
    isClean();
  });

  it('stops at once when interrupted in the middle', async () => {
    const interrupt = new AbortController();
    answer = (response) => { response.setHeader('content-length', bytes.length); response.write(bytes.subarray(0, 500), () => setTimeout(() => interrupt.abort(), 50)); };
    await expect(installModel(options({ manifest: manifest(), signal: interrupt.signal }))).rejects.toThrow(/^Interrupted while downloading .*\. Nothing was installed/);
    isClean();
  });
});

describe('the outermost folder', () => {
  it.each([
    [['a/x', 'a/y/z'], ['x', 'y/z']],
    [['./a/x', './a/y'], ['x', 'y']],
    [['x', 'y/z'], ['x', 'y/z']],
    [['a\\x', 'a\\y'], ['x', 'y']],
  ])('%j becomes %j', (names, wanted) => expect([...modelRoot(new Map(names.map((name) => [name, text('')]))).keys()]).toEqual(wanted));
});

const COMMAND = new URL('../../src/setup/model-vosk.mjs', import.meta.url).pathname;
describe('the command', () => {
  const run = (...args: string[]): { status: number | null; stderr: string } => spawnSync(process.execPath, [COMMAND, ...args], { encoding: 'utf8' });
  it('ends with a message and no trace of the program for a wrong path', () => {
    const { status, stderr } = run('/no/such/model.zip');
    expect(status).toBe(1);
    expect(stderr.trim()).toBe('There is no file or folder "/no/such/model.zip". Nothing was installed.');
  });
  it('ends cleanly when interrupted at the keyboard', async () => {
    const server = createServer((_, response) => { response.setHeader('content-length', 1e6); response.write('PK'); });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const child = spawn(process.execPath, [COMMAND, `http://127.0.0.1:${(server.address() as AddressInfo).port}/model.zip`], { stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    child.stderr.on('data', (text: Buffer) => { said += text.toString(); });
    child.stdout.on('data', (text: Buffer) => { if (text.toString().includes('Downloading')) setTimeout(() => child.kill('SIGINT'), 200); });
    const code = await new Promise((done) => child.on('exit', done));
    server.closeAllConnections();
    server.close();
    expect(said).toMatch(/^\s*Interrupted while downloading .*\. Nothing was installed\. Run it again when you like\.\s*$/);
    expect(code).toBe(130);
    expect(existsSync(join(dirname(COMMAND), '../../models/files/vosk.part'))).toBe(false);
  });
  it('explains itself for an unknown option', () => {
    const { status, stderr } = run('--fast');
    expect(status).toBe(1);
    expect(stderr).toMatch(/Use: npm run model:vosk/);
  });
});
