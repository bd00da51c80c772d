/**
 * The second engine with its real English model, where that is present: installed in models/files/vosk, or named in
 * LUMBRICAL_VOSK_MODEL (zip, tar or folder). It is in no package registry, so elsewhere these tests are skipped.
 * Voices are synthetic (Debian's flite); the sentences are those that nothing was tuned on.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeWav } from '../../src/microphone/wav';
import type { Utterance } from '../../src/recogniser/recogniser';
import { hearClip } from '../../src/recogniser/vosk/agree';
import type { VoskRecogniser } from '../../src/recogniser/vosk/vosk-recogniser';
import { createNodeVosk, installedVoskModel } from '../../src/recogniser/vosk/node';
import type { SoundsLike } from '../../src/recogniser/vosk/sounds-like';
import { projectLanguage, projectSpokenGrammar } from '../../src/setup/vosk-language';
import { installModel, respell } from '../../src/setup/vosk-model';

const root = join(import.meta.dirname, '../..');
const given = process.env.LUMBRICAL_VOSK_MODEL;
const present = Boolean(given) || installedVoskModel() !== null;
const hasVoice = spawnSync('flite', ['--version']).error === undefined && spawnSync('sox', ['--version']).error === undefined;
const SENTENCES = 40;
const VOICE = 'flite-awb';

describe.skipIf(!present)('the English model (not on this machine: run "npm run model:vosk" or set LUMBRICAL_VOSK_MODEL)', () => {
  let home: string;
  let folder = join(root, 'models/files/vosk');
  let spelled: SoundsLike;
  let engine: VoskRecogniser;
  const grammar = projectSpokenGrammar();

  beforeAll(async () => {
    home = mkdtempSync(join(tmpdir(), 'vosk-english-'));
    if (given) {
      folder = join(home, 'vosk');
      await installModel({ manifest: JSON.parse(readFileSync(join(root, 'models/vosk.json'), 'utf8')), language: projectLanguage(), filesDir: home, from: given });
      spelled = JSON.parse(readFileSync(join(folder, 'sounds-like.json'), 'utf8'));
    } else spelled = await respell(join(root, 'models/files'), projectLanguage());
    engine = createNodeVosk({ folder });
    await engine.load();
    await engine.setGrammar(grammar);
  }, 300_000);
  afterAll(() => { engine?.dispose(); rmSync(home, { recursive: true, force: true }); });

  it('has a general vocabulary, and a way to hear every word of the grammar', () => {
    expect(readFileSync(join(folder, 'vocabulary.txt'), 'utf8').split('\n').length).toBeGreaterThan(50_000);
    expect(spelled.unheard).toEqual({});
    expect(new Set([...spelled.known, ...Object.keys(spelled.spellings)])).toEqual(new Set(grammar.pronunciations.keys()));
  });

  it.skipIf(!hasVoice)(`hears ${SENTENCES} sentences in a synthetic voice, and accepts none wrongly`, async () => {
    const clips = join(home, 'clips');
    const made = spawnSync('python3', ['tests/speech/synthesise.py', 'tests/speech/phrases/measuring.txt', clips, '--set', 'measuring', '--voices', VOICE, '--limit', String(SENTENCES)], { cwd: root, encoding: 'utf8' });
    expect(made.status, made.stderr).toBe(0);
    expect(existsSync(join(clips, 'index.tsv'))).toBe(true);
    const rows = readFileSync(join(clips, 'index.tsv'), 'utf8').trim().split('\n').map((line) => line.split('\t'));
    const outcome = { exact: 0, queried: 0, missed: 0, wrong: [] as string[] };
    for (const [file, , text] of rows) {
      const heard: Utterance[] = await hearClip(engine, decodeWav(readFileSync(join(clips, file!)), file!).samples);
      const accepted = heard.filter(({ verdict }) => verdict === 'accepted').map((one) => one.text).join(' ');
      if (accepted === text) outcome.exact += 1;
      else if (accepted) outcome.wrong.push(`${text} → ${accepted}`);
      else if (heard.some(({ verdict }) => verdict === 'queried')) outcome.queried += 1;
      else outcome.missed += 1;
    }
    process.stdout.write(`second engine, ${VOICE}, quiet, ${rows.length} sentences: ${JSON.stringify(outcome)}\n`);
    expect(outcome.wrong).toEqual([]);
    expect(outcome.exact / rows.length).toBeGreaterThanOrEqual(0.5);
  }, 300_000);

  it('hears nothing to accept in silence and noise', async () => {
    const noise = Float32Array.from({ length: 5 * 16_000 }, (_, n) => 0.05 * Math.sin(n * n));
    for (const audio of [new Float32Array(5 * 16_000), noise]) expect((await hearClip(engine, audio)).filter(({ verdict }) => verdict === 'accepted')).toEqual([]);
  });
});
