/**
 * Do the second engine's spellings sound like the words they stand for? npm run bench:spellings-heard
 * The second engine's model cannot be had everywhere, so the embedded engine listens: it is given the clinical words of
 * tests/vosk/clinical-words.ts only as their spellings (CMUdict in place of a model's vocabulary) among plain words, and hears each
 * word alone, spoken from its phones by synthetic voices (Debian's flite). As a control it is given the words themselves.
 * This is about the spellings. It says nothing about how well the second engine hears.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Arc, SpokenGrammar } from '../../src/grammar';
import { decodeWav, RATE } from '../../src/microphone/wav';
import { createNodeRecogniser } from '../../src/recogniser/node';
import { soundsLike } from '../../src/recogniser/vosk/sounds-like';
import { mapBackText, spellingTable, type SpellingTable } from '../../src/recogniser/vosk/spelling-map';
import { projectLanguage } from '../../src/setup/vosk-language';
import { CLINICAL_WORDS, PLAIN_WORDS } from '../vosk/clinical-words';

const VOICES = ['kal16', 'slt', 'awb', 'rms'];
const { lexicon } = projectLanguage();
const words = new Map([...CLINICAL_WORDS, ...PLAIN_WORDS]);
const table = spellingTable(soundsLike(words, new Set([...lexicon.keys()].filter((word) => !CLINICAL_WORDS.has(word))), lexicon));

/** A grammar of single utterances, each a row of words. */
function choice(rows: readonly (readonly string[])[], sounds: (word: string) => readonly string[]): SpokenGrammar {
  const final = 1;
  let states = 2;
  const arcs: Arc[] = rows.flatMap((row) => {
    let at = 0;
    const steps = row.map((word, n): Arc => ({ from: at, to: (at = states++), word, weight: n ? 0 : -Math.log(rows.length) }));
    return [...steps, { from: at, to: final, word: null, weight: 0 }];
  });
  return { name: 'choice', states, start: 0, final, arcs, pronunciations: new Map(rows.flat().map((word) => [word, sounds(word)])) };
}

/** One word, said from its phones, with quiet around it that is not digital silence. */
function spoken(voice: string, pronunciation: string, file: string): Float32Array {
  const said = spawnSync('flite', ['-voice', voice, '-p', `pau ${pronunciation.toLowerCase()} pau`, '-o', file]);
  if (said.error) throw new Error('flite is not installed (Debian: apt-get install flite).');
  const { samples } = decodeWav(readFileSync(file), file);
  const out = Float32Array.from({ length: samples.length + 1.5 * RATE }, (_, n) => 1e-4 * Math.sin(n * n));
  samples.forEach((sample, n) => { out[n + RATE / 2]! += sample / 2; });
  return out;
}

async function measure(label: string, grammar: SpokenGrammar, back: SpellingTable, folder: string): Promise<void> {
  const engine = createNodeRecogniser();
  const heard: string[] = [];
  engine.listen((event) => { if (event.type === 'utterance') heard.push(event.utterance.text); });
  await engine.load();
  await engine.setGrammar(grammar);
  for (const voice of VOICES) {
    const wrong: string[] = [];
    for (const [word, [pronunciation]] of words) {
      heard.length = 0;
      engine.push(spoken(voice, pronunciation!, join(folder, 'word.wav')));
      await engine.finish();
      const text = mapBackText(heard.join(' '), back);
      if (text !== word) wrong.push(`${word} as ${text || 'nothing'}`);
    }
    console.log(`${label} | ${voice} | ${words.size - wrong.length} of ${words.size} | ${wrong.join(', ')}`);
  }
  engine.dispose();
}

const folder = mkdtempSync(join(tmpdir(), 'spellings-'));
try {
  console.log('given | voice (synthetic) | heard right | wrong');
  const plain = [...PLAIN_WORDS.keys()].map((word) => [word]);
  await measure('spellings', choice([...[...table.values()].flat(), ...plain], (word) => PLAIN_WORDS.get(word) ?? lexicon.get(word)!), table, folder);
  await measure('the words themselves', choice([...words.keys()].map((word) => [word]), (word) => words.get(word)!), new Map(), folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
