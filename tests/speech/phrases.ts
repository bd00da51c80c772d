/**
 * Draws the sentences for speech tests from the grammar and writes tests/speech/phrases/*.txt.
 * Tuning and measuring sentences come from different seeds and never overlap. Sentences that the grammar
 * still holds keep their line, so that only clips of changed lines are spoken anew.
 *
 *   npx tsx tests/speech/phrases.ts
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { acceptor, createGenerator, linkGrammars, seededRandom, spokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';

const sources = grammarSources();
const rules = linkGrammars(sources.grammars);
const accepts = acceptor(spokenGrammar(rules, sources.lexicon, sources.base));

/** Findings mostly, as at the bedside; the longest generated sentences are nothing anybody says in one breath. */
function draw(count: number, seed: number, taken: ReadonlySet<string>, longest = 11): string[] {
  const generate = createGenerator(rules, seed);
  const random = seededRandom(seed + 1);
  const chosen = new Set<string>();
  for (let tries = 0; chosen.size < count && tries < count * 200; tries += 1) {
    const lot = random();
    const { words } = generate(lot < 0.88 ? 'finding' : lot < 0.97 ? 'order' : 'side_call');
    const sentence = words.join(' ');
    if (words.length <= longest && !taken.has(sentence) && accepts(words)) chosen.add(sentence);
  }
  return [...chosen];
}

const at = (name: string): URL => new URL(`phrases/${name}.txt`, import.meta.url);
const before = (name: string): string[] => (existsSync(at(name)) ? readFileSync(at(name), 'utf8').trim().split('\n') : []);
/** The sentences there were, with new ones in the place of those that the grammar no longer holds. */
function refresh(name: string, drawn: readonly string[]): string[] {
  const old = before(name);
  const fresh = drawn.filter((sentence) => !old.includes(sentence));
  return drawn.map((_, i) => { const kept = old[i]; return kept && accepts(kept.split(' ')) ? kept : fresh.shift() ?? ''; }).filter((sentence) => sentence !== '');
}

const save = (name: string, sentences: readonly string[]): void => writeFileSync(at(name), `${sentences.join('\n')}\n`);
const tuning = refresh('tuning', draw(160, 11, new Set(before('measuring'))));
const measuring = refresh('measuring', draw(240, 29, new Set(tuning)));
save('tuning', tuning);
save('measuring', measuring);
process.stdout.write(`${tuning.length} tuning and ${measuring.length} measuring sentences\n`);
