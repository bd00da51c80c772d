import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { acceptor, linkGrammars, readContrasts, spokenGrammar, type SpokenGrammar } from '../../../src/grammar';
import { grammarSources } from '../../../src/grammar/sources.node.ts';
import { createParser, createSameMeaning } from '../../../src/parser';
import type { Verdict } from '../../../src/recogniser';
import type { SearchSettings, SpeechModule } from '../../../src/recogniser/decoder';
import { Endpointer, ENDPOINTER, type Stretch } from '../../../src/recogniser/endpointer';
import { Listener, LISTENER, type Hearing } from '../../../src/recogniser/listener';
import { createNodeRecogniser, installedModel, installedRescorer, startNodeModule } from '../../../src/recogniser/node';
import { reading } from '../../../src/recogniser/reading';
import { hearClip } from '../../../src/recogniser/vosk/agree';
import { createNodeVosk } from '../../../src/recogniser/vosk/node';
import { BINS, Spectrum } from '../../../src/recogniser/spectrum';
import { judge, type Evidence } from '../../../src/recogniser/verdict';
import type { Heard } from './outcome';
import { ROOT } from './material';

const sources = grammarSources();
const rules = linkGrammars(sources.grammars);
export const parse = createParser(rules);
export const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
const accepts = acceptor(grammar);
/** Whether the grammar holds a sentence: it may have dropped some since they were spoken. */
export const inGrammar = (sentence: string): boolean => accepts(sentence.split(' '));
const sameMeaning = createSameMeaning(parse);
const contrasts = readContrasts(readFileSync(join(ROOT, 'grammars/contrasts.txt'), 'utf8'));

/** The library's own search settings, as it ships. */
const STOCK: SearchSettings = { beam: 1e-48, pbeam: 1e-48, wbeam: 7e-29, lw: 6.5, wip: 0.65, silprob: 0.005, fillprob: 1e-8 };
/** The 8 kHz model in the speech library's package: for recordings over a telephone band. */
const NARROW_BAND = join(ROOT, 'node_modules/soundswallower/model/en-us');

/** The engine as the recorder uses it, and with one measure taken away at a time. */
export const VARIATIONS = [
  'all on', 'no network', 'no denoising', 'stock beams', 'grammar contrasts only', 'fixed endpointing', 'no endpointing, no trimming', '8 kHz model',
] as const;
/** The second engine stands beside them; it judges by limits of its own, so no judgement can be taken away from it. */
export type Variation = (typeof VARIATIONS)[number] | 'second engine';

/** Verdicts that the same hearing would have had with one judgement taken away; they cost no second hearing. */
export const JUDGEMENTS = ['all on', 'no contrast check', 'no rejection', 'neither'] as const;
export type Judgement = (typeof JUDGEMENTS)[number];
/** As the clearest tuning sentences score. */
const asIfClear = (evidence: Evidence): Evidence => ({ ...evidence, overLoop: 2, perToken: evidence.perToken === null ? null : -0.2 });
const WITHOUT: Readonly<Record<Judgement, (evidence: Evidence) => Evidence>> = {
  'all on': (evidence) => evidence,
  'no contrast check': (evidence) => ({ ...evidence, margin: null }),
  'no rejection': asIfClear,
  'neither': (evidence) => ({ ...asIfClear(evidence), margin: null }),
};

export type HeardBy = Readonly<Record<Judgement, readonly Heard[]>>;
export interface Engine {
  readonly loadSeconds: number;
  hear(audio: Float32Array): Promise<HeardBy>;
  heapMiB(): number;
  dispose(): void;
}

const heardAs = (hearing: Hearing | null, verdict: Verdict): Heard =>
  ({ verdict, readings: hearing ? [hearing.path.words.map(({ word }) => word).join(' '), ...hearing.alternatives.map(({ text }) => text)] : [] });

/** Lays an utterance's verdict beside those that it would have had; `own` is what the recogniser itself decided. */
function gather(own: readonly { readonly hearing: Hearing | null; readonly verdict: Verdict }[]): HeardBy {
  const by = (judgement: Judgement): Heard[] => own.map(({ hearing, verdict }) =>
    heardAs(hearing, judgement === 'all on' || !hearing ? verdict : judge(WITHOUT[judgement](hearing.evidence)).verdict));
  return { 'all on': by('all on'), 'no contrast check': by('no contrast check'), 'no rejection': by('no rejection'), 'neither': by('neither') };
}

/** Memories that WebAssembly runtimes were given: the network's says nothing of its size itself. */
const memories: WebAssembly.Memory[] = [];
WebAssembly.Memory = class extends WebAssembly.Memory {
  constructor(size: WebAssembly.MemoryDescriptor) { super(size); memories.push(this); }
};

/** Opens the engine for what `heard` allows. */
export async function openEngine(variation: Variation, heard: SpokenGrammar = grammar): Promise<Engine> {
  const started = performance.now();
  let module: SpeechModule | undefined;
  const startModule = async (): Promise<SpeechModule> => (module = await startNodeModule());
  const heapMiB = (): number => ((module?.HEAPU8.length ?? 0) + memories.reduce((sum, { buffer }) => sum + buffer.byteLength, 0)) / 2 ** 20;
  const loadSeconds = (): number => (performance.now() - started) / 1000;

  if (variation === 'second engine') {
    const second = createNodeVosk();
    await second.load();
    await second.setGrammar(heard);
    return {
      loadSeconds: loadSeconds(), heapMiB, dispose: () => second.dispose(),
      async hear(audio) {
        const own = (await hearClip(second, audio)).map(({ verdict, text, alternatives }): Heard => ({ verdict, readings: [text, ...alternatives.map((other) => other.text)] }));
        return { 'all on': own, 'no contrast check': own, 'no rejection': own, 'neither': own };
      },
    };
  }

  if (variation === 'fixed endpointing' || variation === 'no endpointing, no trimming') {
    const listener = await Listener.open(await startModule(), installedModel().dir, { contrasts, sameMeaning });
    listener.setGrammar(heard);
    const network = await installedRescorer();
    const stretches = variation === 'fixed endpointing' ? cutAtFixedLevel : wholeRecording;
    return {
      loadSeconds: loadSeconds(), heapMiB, dispose: () => listener.dispose(),
      async hear(audio) {
        const own = [];
        for (const { from, to, noise } of stretches(audio)) {
          const cut = audio.slice(from, to);
          const first = listener.hear(cut, noise);
          const hearing = first && network ? await reading(first, { weigh: await network.hear(cut), around: (text) => listener.around(text, cut, noise), sameMeaning }) : first;
          own.push({ hearing, verdict: hearing ? judge(hearing.evidence).verdict : 'ignored' } as const);
        }
        return gather(own);
      },
    };
  }

  const settings = variation === 'no denoising' ? { ...LISTENER, denoiseBelow: -Infinity } : variation === 'stock beams' ? { ...LISTENER, search: STOCK } : LISTENER;
  const { hear, dispose } = await openHearing(heard, {
    startModule, settings,
    ...(variation === 'grammar contrasts only' ? {} : { sameMeaning }), ...(variation === '8 kHz model' ? { modelDir: NARROW_BAND } : {}), ...(variation === 'no network' ? { openRescorer: async () => null } : {}),
  });
  return { loadSeconds: loadSeconds(), heapMiB, dispose, hear: async (audio) => gather(await hear(audio)) };
}

/** One stretch of speech as the recorder heard and judged it. */
export interface Judged { readonly hearing: Hearing | null; readonly verdict: Verdict }

/** The recorder's own engine, telling everything that its verdicts are based on. */
export async function openHearing(heard: SpokenGrammar = grammar, options: Parameters<typeof createNodeRecogniser>[0] = { sameMeaning }): Promise<{ hear(audio: Float32Array): Promise<Judged[]>; dispose(): void }> {
  let hearings: (Hearing | null)[] = [];
  const recogniser = createNodeRecogniser({ ...options, onHearing: (hearing) => { hearings.push(hearing); } });
  await recogniser.load();
  await recogniser.setGrammar(heard);
  return {
    dispose: () => recogniser.dispose(),
    async hear(audio) {
      hearings = [];
      const verdicts: Verdict[] = [];
      const failures: string[] = [];
      const stop = recogniser.listen((event) => {
        if (event.type === 'utterance') verdicts.push(event.utterance.verdict);
        else if (event.type === 'failed') failures.push(event.message);
      });
      for (let at = 0; at < audio.length; at += 1_600) recogniser.push(audio.subarray(at, at + 1_600));
      await recogniser.finish();
      stop();
      // The recorder would go on with less; a measurement must not.
      if (failures.length) throw new Error(failures.join(' '));
      return verdicts.map((verdict, i) => ({ verdict, hearing: hearings[i] ?? null }));
    },
  };
}

/** An endpointer that only asks for 6 dB above the noise, whatever the noise does, and keeps a second on both sides. */
function cutAtFixedLevel(audio: Float32Array): Stretch[] {
  const endpointer = new Endpointer({ ...ENDPOINTER, rise: 6, spreads: 0, lead: 1, tail: 1 });
  const events = [];
  for (let at = 0; at < audio.length; at += 1_600) events.push(...endpointer.push(audio.subarray(at, at + 1_600)));
  return [...events, ...endpointer.finish()].flatMap((event) => (event.type === 'ended' ? [event.stretch] : []));
}

/** The recording as it is; its first 0.9 s, where nobody speaks yet, are the noise. */
function wholeRecording(audio: Float32Array): Stretch[] {
  const spectrum = new Spectrum();
  const noise = new Float64Array(BINS);
  const frames = 28;
  for (let frame = 0; frame < frames; frame += 1) {
    spectrum.of(audio, frame * 512);
    spectrum.power.forEach((power, k) => { noise[k] = (noise[k] ?? 0) + power / frames; });
  }
  return [{ from: 0, to: audio.length, noise }];
}
