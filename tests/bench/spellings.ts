/**
 * Shows how words are written for the second engine: npm run bench:spellings
 * With the engine's model installed: the grammar's words that the model lacks. Without it: the clinical words of
 * tests/vosk/clinical-words.ts, with the CMU Pronouncing Dictionary less those words standing in for the model's vocabulary.
 * Distances are weighted phone edits (src/recogniser/vosk/phones.ts): 0 sounds the same, 1 is one phone lost or added.
 */
import { existsSync, readFileSync } from 'node:fs';
import { soundsLike } from '../../src/recogniser/vosk/sounds-like';
import { projectLanguage } from '../../src/setup/vosk-language';
import { CLINICAL_WORDS, PLAIN_WORDS } from '../vosk/clinical-words';

const installed = new URL('../../models/files/vosk/vocabulary.txt', import.meta.url);
const { grammarWords, lexicon, overrides } = projectLanguage();
const own = existsSync(installed);
const words = own ? grammarWords : new Map([...CLINICAL_WORDS, ...PLAIN_WORDS]);
const vocabulary = own ? new Set(readFileSync(installed, 'utf8').split('\n').filter(Boolean)) : new Set([...lexicon.keys()].filter((word) => !CLINICAL_WORDS.has(word)));

const began = performance.now();
const { known, spellings, unheard } = soundsLike(words, vocabulary, lexicon, own ? overrides : {});
const seconds = (performance.now() - began) / 1000;

console.log(own ? 'Vocabulary of the installed model' : 'CMUdict in place of a model');
console.log(`${known.length} words known, ${Object.keys(spellings).length} spelled, ${Object.keys(unheard).length} unheard; ${seconds.toFixed(1)} s\n`);
console.log(['word', 'written', 'distance', 'nearest other word', 'distance'].join(' | '));
const all = Object.entries(spellings).sort(([a], [b]) => a.localeCompare(b)).flatMap(([word, list]) => list.map((spelling) => ({ word, ...spelling })));
for (const { word, words: parts, distance, rival } of all) console.log([word, parts.join(' '), distance.toFixed(2), rival?.word ?? '', rival?.distance.toFixed(2) ?? ''].join(' | '));
for (const [word, why] of Object.entries(unheard)) console.log(`${word} | unheard: ${why}`);
const sorted = all.map(({ distance }) => distance).sort((a, b) => a - b);
console.log(`\ndistance: median ${sorted[Math.floor(sorted.length / 2)]?.toFixed(2)}, largest ${sorted.at(-1)?.toFixed(2)}; smallest lead over another word ${Math.min(...all.map(({ distance, rival }) => (rival?.distance ?? Infinity) - distance)).toFixed(2)}`);
