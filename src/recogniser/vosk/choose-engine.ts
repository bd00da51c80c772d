/** The engines by the names that `--engine` and the settings use. */
export const ENGINES = ['embedded', 'vosk'] as const;
export type EngineName = (typeof ENGINES)[number];

/** Figures of the hearing benchmark for one engine on this installation, shares from 0 to 1. */
export interface Measured { readonly exact: number; readonly wronglyAccepted: number }
export interface EngineState { readonly installed: boolean; readonly measured?: Measured }

export interface Choice { readonly engine: EngineName; readonly why: string }

/** Wrongly accepted findings weigh this many times as much as findings heard exactly: a wrong finding misleads, a missed one is said again. A design choice. */
const HARM = 10;
const merit = ({ exact, wronglyAccepted }: Measured): number => exact - HARM * wronglyAccepted;

/**
 * Which engine hears. What was asked for, if it is installed; else the best that was measured; the embedded one,
 * which is always there, as long as no other has been measured beside it.
 * @throws Error naming the engines there are, or how to install the one asked for
 */
export function chooseEngine(engines: Readonly<Record<EngineName, EngineState>>, wanted: string = 'automatic'): Choice {
  if (wanted !== 'automatic') {
    const engine = ENGINES.find((name) => name === wanted);
    if (!engine) throw new Error(`There is no engine "${wanted}". Choose one of: automatic, ${ENGINES.join(', ')}.`);
    if (!engines[engine].installed) throw new Error(engine === 'vosk' ? 'The engine "vosk" has no model yet. Run "npm run model:vosk".' : 'The built-in engine has no model. Run "npm start" once.');
    return { engine, why: 'chosen in the settings' };
  }
  const measured = ENGINES.filter((name) => engines[name].installed && engines[name].measured);
  const best = measured.sort((a, b) => merit(engines[b].measured as Measured) - merit(engines[a].measured as Measured))[0];
  if (best && measured.length > 1) return { engine: best, why: 'the better of the engines measured here' };
  return { engine: 'embedded', why: engines.vosk.installed ? 'the other engine has not been measured here' : 'the only engine installed' };
}
