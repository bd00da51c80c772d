/** The same adapter and library in Node, on the tone model (see engine.test.ts for what the browser does). */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hearClip } from '../../src/recogniser/vosk/agree';
import { createNodeVosk, installedVoskModel } from '../../src/recogniser/vosk/node';
import { installModel } from '../../src/setup/vosk-model';
import { DENIALS, FINDINGS, toneInstall } from './tone-language';
import { say } from './tones';

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
