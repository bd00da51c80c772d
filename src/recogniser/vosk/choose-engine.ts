import measured from '../../../models/measured.json';

/** The engines by the names that `--engine` and the settings use. */
export const ENGINES = ['embedded', 'vosk'] as const;
export type EngineName = (typeof ENGINES)[number];
export const isEngine = (name: string): name is EngineName => (ENGINES as readonly string[]).includes(name);

/** The engine that can give a second opinion on what this source heard; null for what came from no engine. */
export const otherEngine = (source: string): EngineName | null => (isEngine(source) ? (source === 'vosk' ? 'embedded' : 'vosk') : null);

/** The engines in words for people. */
export const ENGINE_WORDS: Readonly<Record<EngineName, string>> = { embedded: 'built-in engine', vosk: 'second engine' };

/** Printed figures of the hearing benchmark for one engine with one model: shares from 0 to 1 by condition, and the command that printed them. */
export interface Measured {
  readonly model: string;
  readonly command: string;
  readonly voices: string;
  readonly clips: number;
  readonly conditions: Readonly<Record<string, { readonly exact: number; readonly wronglyFiled: number }>>;
}

/** The figures on record for an engine with this model (models/measured.json), if there are any. */
export function measuredFor(engine: EngineName, model: string, on: Readonly<Partial<Record<EngineName, Measured>>> = measured.engines): Measured | undefined {
  const figures = on[engine];
  return figures?.model === model ? figures : undefined;
}

export interface EngineState { readonly installed: boolean; readonly measured?: Measured | undefined }
export type EngineStates = Readonly<Record<EngineName, EngineState>>;

export interface Choice { readonly engine: EngineName; readonly why: string }

/** A finding wrongly filed weighs this many times as much as one heard exactly: a wrong finding misleads, a missed one is said again. A design choice. */
const HARM = 10;

/** Mean over the conditions that all have figures for; null where they have none in common. */
function merits(all: readonly Measured[]): readonly number[] | null {
  const shared = Object.keys(all[0]?.conditions ?? {}).filter((name) => all.every(({ conditions }) => conditions[name]));
  if (!shared.length) return null;
  return all.map(({ conditions }) => shared.reduce((sum, name) => {
    const { exact, wronglyFiled } = conditions[name] as Measured['conditions'][string];
    return sum + exact - HARM * wronglyFiled;
  }, 0) / shared.length);
}

/**
 * Which engine hears. What was asked for, if it is installed; else the best of those that were measured under the same conditions.
 * An engine without figures is never taken by itself, except the built-in one, which is always there.
 * @throws Error naming the engines there are, or how to install the one asked for
 */
export function chooseEngine(engines: EngineStates, wanted: string = 'automatic'): Choice {
  if (wanted !== 'automatic') {
    if (!isEngine(wanted)) throw new Error(`There is no engine "${wanted}". Choose one of: automatic, ${ENGINES.join(', ')}.`);
    if (!engines[wanted].installed) throw new Error(wanted === 'vosk' ? 'The second engine ("vosk") has no model yet. Run "npm run model:vosk".' : 'The built-in engine has no model. Run "npm start" once.');
    return { engine: wanted, why: 'it was chosen' };
  }
  if (!engines.vosk.installed) return { engine: 'embedded', why: 'it is the only one installed' };
  if (!engines.vosk.measured) return { engine: 'embedded', why: 'there are no measured figures for the second engine' };
  if (!engines.embedded.measured) return { engine: 'embedded', why: 'there are no measured figures for its model to compare the second engine with' };
  const both = merits([engines.embedded.measured, engines.vosk.measured]);
  if (!both) return { engine: 'embedded', why: 'the two engines were not measured under the same conditions' };
  const [embedded = 0, vosk = 0] = both;
  return vosk > embedded ? { engine: 'vosk', why: 'it was measured to be the better of the two' } : { engine: 'embedded', why: 'the second engine was not measured to be better' };
}
