/**
 * The real adapter over the real library in a real browser, with a tiny real model whose speech sounds are tones
 * (fixtures/make-tone-model.py): everything but the English model itself.
 */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RecogniserEvent, Utterance } from '../../src/recogniser/recogniser';
import { agree, hearClip } from '../../src/recogniser/vosk/agree';
import type { FramedOptions, InstalledModel } from '../../src/recogniser/vosk';
import { installModel, type InstallOptions } from '../../src/setup/vosk-model';
import { EngineOnPage, enginesIn, openLab, PAGE_POLICY, type Lab, type Probe } from './chromium';
import type { Harness } from './page';
import { DENIALS, FINDINGS, grammar, TONE_MODEL, toneInstall } from './tone-language';
import { EDGE, placeOf, quiet, say } from './tones';

declare const harness: Harness;
declare const probe: Probe;

const RATE = 16_000;
const FRAME = 0.03;
let filesDir: string;
let lab: Lab;
const install = (from: string, more: Partial<InstallOptions> = {}): ReturnType<typeof installModel> => installModel({ ...toneInstall(filesDir), from, ...more });
/** A copy of the installed model under another name, with one file changed. */
const variant = (name: string, file: string, content: string | Uint8Array): string => {
  cpSync(join(filesDir, 'vosk'), join(filesDir, name), { recursive: true });
  writeFileSync(join(filesDir, name, file), content);
  return `/models/${name}/`;
};
let archive: string;
let installed: InstalledModel;

beforeAll(async () => {
  filesDir = mkdtempSync(join(tmpdir(), 'vosk-lab-'));
  installed = await install(TONE_MODEL);
  archive = installed.archive;
  lab = await openLab(filesDir);
});
afterAll(async () => { await lab?.close(); rmSync(filesDir, { recursive: true, force: true }); });

const engineOn = (page: Page, options: Partial<FramedOptions> = {}, chunk?: number): Promise<EngineOnPage> => EngineOnPage.on(page, { base: '/models/vosk/', contrasts: [], loadTimeout: 90, ...options }, chunk);
const collect = (engine: EngineOnPage): RecogniserEvent[] => { const events: RecogniserEvent[] = []; engine.listen((event) => { if (event.type !== 'level') events.push(event); }); return events; };
/** No document of the engine is left on the page, and no worker. */
const isGone = (page: Page): Promise<void> => expect.poll(() => [enginesIn(page).length, page.workers().length]).toEqual([0, 0]);
const texts = (utterances: readonly Utterance[]): string[] => utterances.map(({ text }) => text);

describe('with a grammar', () => {
  let engine: EngineOnPage;
  beforeAll(async () => {
    engine = await engineOn(await lab.page());
    const events = collect(engine);
    await engine.load();
    expect(events).toEqual([{ type: 'ready', engine: 'vosk', model: expect.stringContaining('tone-model') as string }]);
    await engine.setGrammar(FINDINGS);
    expect(events).toHaveLength(1);
  });
  afterAll(() => engine.page.close());

  it.each(['left thumb numb', 'right index weak', 'left index numb', 'right thumb weak'])('hears "%s"', async (sentence) => {
    const [utterance, ...more] = await hearClip(engine, say(sentence, sentence.length));
    expect(more).toEqual([]);
    expect(utterance).toMatchObject({ text: sentence, verdict: 'accepted', source: 'vosk' });
    expect(utterance!.confidence).toBeGreaterThan(0.9);
    expect(utterance!.confidence).toBeLessThan(1);
  });

  it('hears the same whatever the size of the pieces', async () => {
    const page = await lab.page();
    for (const chunk of [128, 1601, 100_000]) {
      const own = await engineOn(page, {}, chunk);
      await own.load();
      await own.setGrammar(FINDINGS);
      expect(texts(await hearClip(own, say('right index weak')))).toEqual(['right index weak']);
      own.dispose();
    }
    await page.close();
  });

  it('puts a clinical word back where its spelling was heard', async () => {
    const [utterance] = await hearClip(engine, say('right thin are weak'));
    expect(utterance).toMatchObject({ text: 'right thenar weak', verdict: 'accepted' });
    const thenar = utterance!.words[1]!;
    expect(Math.abs(thenar.end - thenar.start - (placeOf(2).end - placeOf(1).start))).toBeLessThanOrEqual(3 * FRAME);
  });

  it('gives the words\' places in the stream, and the audio they were said in', async () => {
    const own = await engineOn(await lab.page());
    await own.load();
    await own.setGrammar(FINDINGS);
    const first = say('left thumb numb');
    await hearClip(own, first);
    const second = say('right index weak');
    const [utterance] = await hearClip(own, second);
    const before = first.length / RATE;
    utterance!.words.forEach(({ start, end }, n) => {
      expect(Math.abs(start - before - placeOf(n).start), `start of word ${n}`).toBeLessThanOrEqual(2 * FRAME);
      expect(Math.abs(end - before - placeOf(n).end), `end of word ${n}`).toBeLessThanOrEqual(2 * FRAME);
    });
    const from = Math.round((utterance!.start - 0.2 - before) * RATE);
    const cut = utterance!.audio!;
    const wanted = second.slice(from, from + cut.length);
    expect(cut.length).toBeGreaterThan(RATE);
    expect(cut.every((sample, n) => sample === wanted[n])).toBe(true);
    await own.page.close();
  });

  it('tells the beginning of speech, then growing partials, then the utterance', async () => {
    const own = await engineOn(engine.page);
    await own.load();
    const events = collect(own);
    await own.setGrammar(FINDINGS);
    await hearClip(own, say('left thumb weak'));
    own.dispose();
    expect(events.map(({ type }) => type).filter((type, n, all) => type !== all[n - 1])).toEqual(['speech started', 'partial', 'utterance']);
    const started = events.find((event) => event.type === 'speech started')!;
    expect(started.at).toBeGreaterThanOrEqual(EDGE);
    expect(started.at).toBeLessThan(EDGE + 0.5);
    const partials = events.flatMap((event) => (event.type === 'partial' ? [event.text] : []));
    expect(partials.at(-1)).toBe('left thumb weak');
    expect(new Set(partials).size).toBe(partials.length);
  });

  it('ends an utterance by itself after a pause', async () => {
    const utterances: Utterance[] = [];
    const stop = engine.listen((event) => { if (event.type === 'utterance') utterances.push(event.utterance); });
    engine.push(say('left thumb numb'));
    engine.push(quiet(2));
    await expect.poll(async () => { await engine.deliver(); return texts(utterances); }, { timeout: 20_000 }).toEqual(['left thumb numb']);
    stop();
    await engine.finish();
  });

  it('asks about words that make no sentence, and about a part it does not know', async () => {
    expect(await hearClip(engine, say('weak numb left thumb'))).toMatchObject([{ verdict: 'queried', why: 'These words make no sentence that the recorder knows.' }]);
    expect(await hearClip(engine, say('left thumb ~ numb'))).toMatchObject([{ verdict: 'queried', why: 'Part of it was not understood.' }]);
  });

  it('ignores what is mostly unknown, and silence', async () => {
    expect(await hearClip(engine, say('~ ~ ~'))).toMatchObject([{ verdict: 'ignored' }]);
    expect(await hearClip(engine, quiet(2))).toEqual([]);
    expect(await hearClip(engine, new Float32Array(1))).toEqual([]);
  });

  it('accepts nothing that is said in words outside the grammar', async () => {
    for (const sentence of ['hello finger', 'and finger and', 'no and no', 'finger thin hello and'])
      expect((await hearClip(engine, say(sentence))).filter(({ verdict }) => verdict === 'accepted'), sentence).toEqual([]);
  });

  it('gives a second opinion on a clip', async () => {
    const clip = say('left thumb numb');
    const [heard] = await hearClip(engine, clip);
    const record = { ...heard!, id: 'first', source: 'embedded', confidence: 0.8 };
    expect(agree(record, heard!).confidence).toBeGreaterThan(0.95);
    expect(agree({ ...record, text: 'right thumb numb' }, heard!)).toMatchObject({ verdict: 'queried', alternatives: [{ text: 'left thumb numb' }] });
  });
});

describe('a change of grammar', () => {
  it('in the middle of an utterance neither cuts it in two nor shifts it in time', async () => {
    const engine = await engineOn(await lab.page());
    const utterances: Utterance[] = [];
    engine.listen((event) => { if (event.type === 'utterance') utterances.push(event.utterance); });
    await engine.load();
    await engine.setGrammar(FINDINGS);
    const [before, after] = [say('left thumb numb'), say('no right index')];
    engine.push(before);
    await engine.finish();
    // Cut where a recogniser that finished here would be sure of a sentence of its own: after "no".
    const cut = Math.round(placeOf(0).end * RATE);
    engine.push(after.slice(0, cut));
    await expect.poll(async () => { await engine.deliver(); return utterances.length; }).toBe(1);
    await engine.setGrammar(DENIALS);
    engine.push(after.slice(cut));
    await engine.finish();
    expect(utterances).toMatchObject([{ text: 'left thumb numb', verdict: 'accepted' }, { text: 'no right index', verdict: 'accepted' }]);
    expect(Math.abs(utterances[1]!.start - before.length / RATE - EDGE)).toBeLessThanOrEqual(2 * FRAME);
    expect((await hearClip(engine, say('left thumb numb'))).map(({ verdict }) => verdict)).not.toContain('accepted');
    await engine.page.close();
  });

  it('names the word at fault', async () => {
    const engine = await engineOn(await lab.page());
    await engine.load();
    await expect(engine.setGrammar(grammar('new', [[0, 'left', 1], [1, 'pisiform', 2]], 2))).rejects.toThrow('The second engine has no spelling yet for "pisiform". Run "npm run model:vosk -- --respell".');
    const events = collect(engine);
    await engine.setGrammar(grammar('deaf', [[0, 'left', 1], [1, 'hypothenar', 2], [1, 'thumb', 2]], 2));
    expect(events).toMatchObject([{ type: 'failed', fatal: false, message: expect.stringContaining('cannot hear hypothenar') as string }]);
    expect(texts(await hearClip(engine, say('left thumb')))).toEqual(['left thumb']);
    await engine.page.close();
  });

  it('done again and again holds no more memory', async () => {
    const page = await lab.page();
    const engine = await engineOn(page);
    await engine.load();
    const round = async (): Promise<number> => {
      for (let n = 0; n < 20; n += 1) {
        await engine.setGrammar(n % 2 ? FINDINGS : DENIALS);
        expect(texts(await hearClip(engine, say(n % 2 ? 'left thumb numb' : 'no right index')))).toEqual([n % 2 ? 'left thumb numb' : 'no right index']);
      }
      return enginesIn(page)[0]!.evaluate(() => probe.memory());
    };
    const first = await round();
    let last = first;
    for (let n = 0; n < 2; n += 1) last = await round();
    expect(first).toBeGreaterThan(1e6);
    expect(last).toBe(first);
    await page.close();
  });
});

describe('free speech', () => {
  it('hears words that no grammar holds, and still puts clinical words back', async () => {
    const engine = await engineOn(await lab.page(), { mode: 'open' });
    await engine.load();
    await engine.setGrammar(FINDINGS);
    expect(await hearClip(engine, say('hello finger and thumb'))).toMatchObject([{ text: 'hello finger and thumb', verdict: 'accepted' }]);
    expect(await hearClip(engine, say('left thenar numb'.replace('thenar', 'thin are')))).toMatchObject([{ text: 'left thenar numb', verdict: 'accepted' }]);
    expect(await hearClip(engine, say('hello thin are'))).toMatchObject([{ text: 'hello thenar', verdict: 'queried' }]);
    expect(await hearClip(engine, say('hello ~ finger'))).toMatchObject([{ verdict: 'queried' }]);
    await engine.page.close();
  });
});

describe('the end', () => {
  /** An engine that hears, and is given up when it has not answered for a second. */
  const hearing = async (): Promise<{ page: Page; engine: EngineOnPage; events: RecogniserEvent[] }> => {
    const page = await lab.page();
    const engine = await engineOn(page, { answerTimeout: 1 });
    await engine.load();
    await engine.setGrammar(FINDINGS);
    return { page, engine, events: collect(engine) };
  };

  it('of an engine ends its worker, and what comes later does no harm', async () => {
    const page = await lab.page();
    const engine = await engineOn(page);
    await engine.load();
    await engine.setGrammar(FINDINGS);
    engine.push(say('left thumb numb'));
    expect([enginesIn(page).length, page.workers().length]).toEqual([1, 1]);
    engine.dispose();
    engine.dispose();
    engine.push(say('left thumb numb'));
    await expect(engine.finish()).rejects.toThrow('The second engine is not loaded.');
    await isGone(page);
    await page.close();
  });

  it('of the worker is told, not waited for', async () => {
    const { page, engine, events } = await hearing();
    await enginesIn(page)[0]!.evaluate(() => probe.stop());
    engine.push(say('left thumb numb'));
    await expect(engine.finish()).rejects.toThrow('The second engine has not answered for 1 s.');
    expect(events).toMatchObject([{ type: 'failed', fatal: true, message: expect.stringContaining('Switch to the built-in engine') as string }]);
    await page.close();
  });

  it('of its whole document is told, and does not hold up the page', async () => {
    const { page, engine, events } = await hearing();
    await enginesIn(page)[0]!.evaluate(() => { setTimeout(() => { for (const end = Date.now() + 15_000; Date.now() < end;); }); });
    engine.push(say('left thumb numb'));
    await expect.poll(async () => { await engine.deliver(); return events; }, { timeout: 10_000 }).toMatchObject([{ type: 'failed', fatal: true, message: 'The second engine has not answered for 2 s. Switch to the built-in engine, or reload the page.' }]);
    engine.dispose();
    await isGone(page);
    await page.close();
  });

  it('of its ability to keep up is told, and costs only what could not be kept', async () => {
    const page = await lab.page();
    const engine = await engineOn(page);
    await engine.load();
    const events = collect(engine);
    // Nothing is taken until there is a grammar.
    engine.push(quiet(29));
    engine.push(say('left thumb numb'));
    engine.push(say('left thumb numb'));
    await engine.setGrammar(FINDINGS);
    expect(events.filter(({ type }) => type === 'failed')).toMatchObject([{ fatal: false, message: expect.stringContaining('cannot keep up') as string }]);
    const clip = say('right index weak');
    engine.push(clip);
    const utterances: Utterance[] = [];
    engine.listen((event) => { if (event.type === 'utterance') utterances.push(event.utterance); });
    await engine.finish();
    const last = utterances.at(-1)!;
    expect(last.text).toMatch(/right index weak$/);
    expect(Math.abs(last.words.at(-1)!.end - (29 * RATE + 2 * say('left thumb numb').length) / RATE - placeOf(2).end)).toBeLessThanOrEqual(2 * FRAME);
    await page.close();
  });
});

describe('loading', () => {
  const failure = async (options: Partial<FramedOptions>, path?: string): Promise<{ message: string; page: Page }> => {
    const page = await lab.page(path);
    const engine = await engineOn(page, options);
    const message = await engine.load().then(() => 'loaded', (error: Error) => error.message);
    return { message, page };
  };

  it.each<[string, () => Partial<FramedOptions>, RegExp]>([
    ['nothing is installed', () => ({ base: '/models/none/' }), /is not installed\. Run "npm run model:vosk" once/],
    ['the description is damaged', () => ({ base: variant('damaged', 'installed.json', '<html>') }), /is not installed\. Run "npm run model:vosk" once/],
    ['the archive is gone', () => ({ base: variant('gone', 'installed.json', JSON.stringify({ ...installed, archive: 'other.tgz' })) }), /archive is not where it should be \(404\)\. Install the model again/],
    ['the archive is rubbish', () => ({ base: variant('rubbish', archive, Buffer.alloc(installed.archiveBytes, 'rubbish')) }), /could not open its model.*: it is damaged or of another kind\. Install the model again with "npm run model:vosk"/],
    ['the archive is cut off', () => ({ base: variant('empty', archive, 'rub') }), /archive has 3 bytes instead of \d+: it is damaged\. Install the model again/],
    ['the model takes no grammar', () => ({ base: variant('fixed', 'installed.json', JSON.stringify({ ...installed, takesGrammar: false })) }), /cannot be narrowed to a grammar/],
    ['the server never answers', () => ({ base: variant('silent', 'installed.json', JSON.stringify(installed)), fetchTimeout: 2 }), /could not be read from the recorder's own server.*within 2 s/],
  ])('says so when %s, and leaves nothing behind', async (_, options, message) => {
    const { message: said, page } = await failure(options());
    expect(said).toMatch(message);
    await isGone(page);
    await page.close();
  });

  it('says so when what is inside is no model', async () => {
    await install(TONE_MODEL, { filesDir: join(filesDir, 'second') });
    const home = mkdtempSync(join(tmpdir(), 'vosk-broken-'));
    cpSync(TONE_MODEL, home, { recursive: true });
    writeFileSync(join(home, 'am/final.mdl'), '<TransitionModel>\nnot one');
    await install(home, { filesDir: join(filesDir, 'broken') });
    rmSync(home, { recursive: true });
    const { message, page } = await failure({ base: '/models/broken/vosk/' });
    expect(message).toMatch(/could not open its model.*damaged or of another kind/);
    // And a good one loads on the same page afterwards.
    const good = await engineOn(page, { base: '/models/second/vosk/' });
    await good.load();
    await page.close();
  });

  it.each<[string, string, Partial<FramedOptions>, RegExp]>([
    ['forbids its worker', '/no-worker/', { loadTimeout: 10 }, /second engine/],
    ['forbids it to evaluate code', '/no-eval/', { loadTimeout: 10 }, /security policy forbids the second engine/],
    ['is missing', '/no-document/', { startTimeout: 2 }, /own document \(second-engine\.html\) did not start\. Run "npm start" again/],
    ['is another page', '/empty-document/', { startTimeout: 2 }, /own document \(second-engine\.html\) did not start/],
  ])('says so when its own document %s', async (_, path, options, message) => {
    const { message: said, page } = await failure(options, path);
    expect(said).toMatch(message);
    await isGone(page);
    await page.close();
  });

  it('can be broken off', async () => {
    const page = await lab.page();
    const engine = await engineOn(page, { base: variant('silent-too', 'installed.json', JSON.stringify(installed)), loadTimeout: 30 });
    const loading = engine.load().then(() => 'loaded', (error: Error) => error.message);
    engine.dispose();
    expect(await loading).toBe('The second engine was closed while it was loading.');
    await isGone(page);
    await page.close();
  });
});

describe('apart from the recorder', () => {
  const attempt = (page: Page, what: string): Promise<string> => enginesIn(page)[0]!.evaluate(`(async () => { try { ${what}; return 'done'; } catch (error) { return error.name; } })()`) as Promise<string>;

  it('the page that records allows no evaluated code, and the engine works under it', async () => {
    expect(PAGE_POLICY).not.toContain("'unsafe-eval'");
    expect(PAGE_POLICY).toContain("connect-src 'self'");
    const page = await lab.page();
    expect(await page.evaluate(() => harness.evaluates())).toBe(false);
    const engine = await engineOn(page);
    await engine.load();
    await engine.setGrammar(FINDINGS);
    expect(texts(await hearClip(engine, say('left thumb numb')))).toEqual(['left thumb numb']);

    // Nothing that runs beside it can read the examinations, reach into the page, or speak to a server.
    for (const what of ['indexedDB.open("x")', 'localStorage.length', 'window.parent.document.title', 'document.cookie']) expect(await attempt(page, what), what).toBe('SecurityError');
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    for (const what of ['await fetch("/models/vosk/installed.json")', 'await fetch("https://example.org/")']) expect(await attempt(page, what), what).toBe('TypeError');
    expect(await attempt(page, 'window.parent.location = "about:blank"')).toBe('SecurityError');
    expect(asked).toEqual([]);
    expect(await page.evaluate(async () => (await indexedDB.databases()).length)).toBe(0);
    await page.close();
  });
});
