/** The same adapter and library in Node, on the tone model (see engine.test.ts for what the browser does). */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Utterance } from '../../src/recogniser/recogniser';
import { hearClip } from '../../src/recogniser/vosk/agree';
import { createNodeVosk, installedVoskModel } from '../../src/recogniser/vosk/node';
import { installModel } from '../../src/setup/vosk-model';
import { DENIALS, FINDINGS, grammar, toneInstall } from './tone-language';
import { quiet, say } from './tones';

let filesDir: string;
let folder: string;
beforeAll(async () => {
  filesDir = mkdtempSync(join(tmpdir(), 'vosk-node-'));
  folder = join(filesDir, 'vosk');
  await installModel(toneInstall(filesDir));
});
afterAll(() => rmSync(filesDir, { recursive: true, force: true }));

describe('the second engine in Node', () => {
  it('hears, puts clinical words back, changes grammar and ends', async () => {
    expect(installedVoskModel(folder)).toBe('tone-model');
    const engine = createNodeVosk({ folder });
    await engine.load();
    await engine.setGrammar(FINDINGS);
    expect(await hearClip(engine, say('right thin are weak'))).toMatchObject([{ text: 'right thenar weak', verdict: 'accepted', source: 'vosk' }]);
    await engine.setGrammar(DENIALS);
    expect(await hearClip(engine, say('no left thumb'))).toMatchObject([{ text: 'no left thumb', verdict: 'accepted' }]);
    engine.dispose();
    engine.dispose();
  });

  it('hears two streams in two engines at once', async () => {
    const engines = await Promise.all([FINDINGS, DENIALS].map(async (grammar) => { const engine = createNodeVosk({ folder }); await engine.load(); await engine.setGrammar(grammar); return engine; }));
    const heard = await Promise.all(engines.map((engine, n) => hearClip(engine, say(n ? 'no right index' : 'left thumb numb'))));
    expect(heard.map(([one]) => one?.text)).toEqual(['left thumb numb', 'no right index']);
    for (const engine of engines) engine.dispose();
  });

  it('asks about a finding that may go on from a "no" said before a pause', async () => {
    const engine = createNodeVosk({ folder });
    await engine.load();
    await engine.setGrammar(grammar('both', [[0, 'no', 1], [0, 'left', 2], [1, 'left', 2], [2, 'thumb', 3], [3, 'numb', 4], [3, 'weak', 4]], 4));
    const hear = async (...said: string[]): Promise<Utterance[]> => {
      const heard: Utterance[] = [];
      for (const sentence of said) heard.push(...await hearClip(engine, say(sentence)));
      await hearClip(engine, quiet(3));
      return heard;
    };
    expect(await hear('no', 'left thumb numb')).toMatchObject([{ verdict: 'queried' }, { text: 'left thumb numb', verdict: 'queried', why: 'It may go on from "no".', alternatives: [{ text: 'no left thumb numb' }] }]);
    expect(await hear('no left thumb numb', 'left thumb weak')).toMatchObject([{ verdict: 'accepted' }, { verdict: 'accepted' }]);
    engine.dispose();
  });

  it('asks about a spelled word that sounds almost like another of its contrast', async () => {
    const sounds = new Map([['thenar', ['TH IY N ER']], ['thumb', ['TH IY N']], ['index', ['IH N D EH K S']]]);
    const engine = createNodeVosk({ folder, contrasts: [['thenar', 'thumb', 'index'], ['numb', 'weak']] });
    await engine.load();
    await engine.setGrammar({ ...FINDINGS, pronunciations: sounds });
    expect(await hearClip(engine, say('left thin are numb'))).toMatchObject([{ text: 'left thenar numb', verdict: 'queried', why: 'It sounds almost like "left thumb numb".', alternatives: [{ text: 'left thumb numb' }] }]);
    expect(await hearClip(engine, say('left index numb'))).toMatchObject([{ text: 'left index numb', verdict: 'accepted' }]);
    engine.dispose();
  });

  it('hears freely', async () => {
    const engine = createNodeVosk({ folder, mode: 'open' });
    await engine.load();
    expect(await hearClip(engine, say('hello finger'))).toMatchObject([{ text: 'hello finger' }]);
    engine.dispose();
  });

  it('says so when there is no model or a damaged one', async () => {
    expect(() => createNodeVosk({ folder: join(filesDir, 'none') })).toThrow(/is not installed in .*none\. Run "npm run model:vosk" once/);
    const broken = join(filesDir, 'broken');
    const { archive } = await installModel(toneInstall(broken));
    writeFileSync(join(broken, 'vosk', archive), 'rubbish');
    const engine = createNodeVosk({ folder: join(broken, 'vosk') });
    await expect(engine.load()).rejects.toThrow(/could not open its model/);
    rmSync(join(broken, 'vosk', archive));
    await expect(createNodeVosk({ folder: join(broken, 'vosk') }).load()).rejects.toThrow(/archive is not where it should be/);
  });
});
