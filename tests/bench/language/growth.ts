import { readDictionary, seededRandom, type Arc, type DictionaryText, type SpokenGrammar } from '../../../src/grammar';
import { createNodeRecogniser } from '../../../src/recogniser/node';
import { listClips, readClip } from '../../speech/clips';

/**
 * A grammar `times` as large: the automaton with copies of itself beside it, each in other words of the general dictionary
 * of about the same length in phones. So it grows as it would by more of the same language, not by a flat list.
 */
export function grow(grammar: SpokenGrammar, times: number, base: DictionaryText): SpokenGrammar {
  const random = seededRandom(times);
  const pronunciations = new Map(grammar.pronunciations);
  const arcs: Arc[] = [...grammar.arcs];
  const byLength = new Map<number, [string, readonly string[]][]>();
  for (const [word, variants] of readDictionary(base.text, base.file)) {
    if (!/^[a-z]{2,}$/.test(word) || pronunciations.has(word)) continue;
    const length = variants[0]!.split(' ').length;
    if (!byLength.has(length)) byLength.set(length, []);
    byLength.get(length)!.push([word, variants]);
  }
  let states = grammar.states;
  for (let copy = 1; copy < times; copy += 1) {
    const other = new Map<string, string>();
    for (const [word, variants] of grammar.pronunciations) {
      const alike = byLength.get(variants[0]!.split(' ').length)!;
      const [chosen, own] = alike.splice(Math.floor(random() * alike.length), 1)[0]!;
      other.set(word, chosen);
      pronunciations.set(chosen, own);
    }
    const from = states;
    // The copies share start and end with the first.
    const moved = (state: number): number => (state === grammar.start || state === grammar.final ? state : from + state);
    for (const arc of grammar.arcs) if (arc.word !== null || arc.from !== grammar.start) arcs.push({ ...arc, from: moved(arc.from), to: moved(arc.to), word: arc.word === null ? null : other.get(arc.word)! });
    states += grammar.states;
  }
  return { ...grammar, states, arcs, pronunciations };
}

export interface GrowthRow { readonly times: number; readonly arcs: number; readonly words: number; readonly setMs: number; /** Processor time over audio time. */ readonly factor: number; readonly right: number; readonly clips: number }

/** Hears the same clips with a grammar one, two and four times as large. */
export async function measureGrowth(grammar: SpokenGrammar, base: DictionaryText, clips: number): Promise<GrowthRow[]> {
  const chosen = listClips().filter((_, index) => index % 11 === 1).slice(0, clips);
  const recogniser = createNodeRecogniser();
  await recogniser.load();
  const rows: GrowthRow[] = [];
  const processor = (): number => { const { user, system } = process.cpuUsage(); return (user + system) / 1e6; };
  for (const times of [1, 2, 4]) {
    const grown = grow(grammar, times, base);
    const begin = performance.now();
    await recogniser.setGrammar(grown);
    const setMs = performance.now() - begin;
    let audio = 0;
    let right = 0;
    let used = 0;
    for (const clip of chosen) {
      const samples = await readClip(clip.file);
      const heard: string[] = [];
      const stop = recogniser.listen((event) => { if (event.type === 'utterance') heard.push(event.utterance.text); });
      const start = processor();
      for (let at = 0; at < samples.length; at += 1600) recogniser.push(samples.subarray(at, at + 1600));
      await recogniser.finish();
      used += processor() - start;
      stop();
      audio += samples.length / 16_000;
      if (heard.join(' ') === clip.text) right += 1;
    }
    rows.push({ times, arcs: grown.arcs.length, words: grown.pronunciations.size, setMs, factor: used / audio, right, clips: chosen.length });
  }
  recogniser.dispose();
  return rows;
}
