import { cautionsFor } from '../cautions';
import { advance, contextOf, protocolById } from '../examination';
import type { Hearing, Protocol } from '../examination';
import { linkGrammars, spokenGrammar } from '../grammar';
// With its ending: tsx takes a bare ".node" for a native add-on.
import { grammarSources } from '../grammar/sources.node.ts';
import { createParser, createSameMeaning } from '../parser';
import { createNodeRecogniser } from '../recogniser/node';
import { chooseNodeEngine, createNodeVosk } from '../recogniser/vosk/node';
import type { Recogniser, Utterance } from '../recogniser';
import { Journal, memoryStore } from '../record';
import type { ExaminationRecord } from '../record';
import type { Source } from './input';

export interface Examined { readonly record: ExaminationRecord; readonly protocol: Protocol; /** Where each utterance came from, by its id. */ readonly from: ReadonlyMap<string, string>; /** Things worth knowing that are no failure. */ readonly notes: readonly string[] }

const CHUNK = 1_600; // 0.1 s, as a microphone delivers
const CLIPPED = 0.99;

interface Language { readonly sources: ReturnType<typeof grammarSources>; readonly rules: ReturnType<typeof linkGrammars>; readonly parse: ReturnType<typeof createParser> }
let language: Language | undefined;
/** The grammars, read and linked once a process. */
function theLanguage(): Language {
  if (language) return language;
  const sources = grammarSources();
  const rules = linkGrammars(sources.grammars);
  return (language = { sources, rules, parse: createParser(rules) });
}

/** Opens the engine of that name, or the best that was measured. */
function openEngine(wanted: string, newId: () => string, parse: ReturnType<typeof createParser>): Recogniser {
  return chooseNodeEngine(wanted).engine === 'vosk' ? createNodeVosk() : createNodeRecogniser({ newId, sameMeaning: createSameMeaning(parse) });
}

/** Hears recordings, one after the other, with one engine: loading it takes longer than most recordings. */
async function openEars(engine: string, newId: () => string): Promise<{ hear(samples: Float32Array): Promise<Utterance[]>; close(): void }> {
  const { sources, rules, parse } = theLanguage();
  const recogniser = openEngine(engine, newId, parse);
  await recogniser.load();
  await recogniser.setGrammar(spokenGrammar(rules, sources.lexicon, sources.base));
  const hear = async (samples: Float32Array): Promise<Utterance[]> => {
    const heard: Utterance[] = [];
    const stop = recogniser.listen((event) => { if (event.type === 'utterance') heard.push(event.utterance); });
    for (let at = 0; at < samples.length; at += CHUNK) recogniser.push(samples.subarray(at, at + CHUNK));
    await recogniser.finish();
    stop();
    return heard;
  };
  return { hear, close: () => recogniser.dispose() };
}

const noted = (text: string, id: string): Utterance => ({ id, text, start: 0, end: 0, confidence: 1, verdict: 'accepted', words: [], alternatives: [], source: 'notes' });

/** Conducts one examination from files: the same parser, conductor and record as the page, kept in memory. */
export async function examine(files: readonly Source[], protocolId: string, engine: string): Promise<Examined> {
  const protocol = protocolById(protocolId) as Protocol;
  const { parse } = theLanguage();
  const counter = (prefix: string): (() => string) => { let count = 0; return () => `${prefix}${(count += 1)}`; };
  const newUtterance = counter('u');
  const tools = { protocol, newId: counter('f') };
  const journal = await Journal.begin(memoryStore(), { label: 'Read from files', protocol: protocol.id });
  const from = new Map<string, string>();
  const notes: string[] = [];
  const ears = files.some(({ kind }) => kind === 'recording') ? await openEars(engine, newUtterance) : undefined;

  for (const file of files) {
    const utterances = file.kind === 'notes' ? file.lines.map((line) => noted(line, newUtterance())) : await ears?.hear(file.samples) ?? [];
    if (file.kind === 'recording' && utterances.length === 0) notes.push(`${file.from}: no speech was heard.`);
    if (file.kind === 'recording' && file.samples.some((sample) => Math.abs(sample) >= CLIPPED)) notes.push(`${file.from}: the recording is clipped; a lower level hears better.`);
    for (const utterance of utterances) {
      from.set(utterance.id, file.from);
      const context = contextOf(journal.record);
      const ignored = utterance.verdict === 'ignored';
      const hearing: Hearing = {
        utterance, statements: ignored ? [] : parse(utterance.text, context),
        otherReadings: ignored ? [] : utterance.alternatives.map(({ text }) => ({ text, statements: parse(text, context) })),
      };
      const caution = cautionsFor(journal.record).find(({ id }) => !journal.record.cautionsAcknowledged.includes(id))?.id;
      await advance(journal, hearing, { ...tools, ...(caution ? { caution } : {}) });
    }
  }
  ears?.close();
  return { record: journal.record, protocol, from, notes };
}
