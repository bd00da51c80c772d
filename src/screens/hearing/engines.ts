import { chooseEngine, ENGINE_WORDS, INSTALL_COMMAND, measuredFor, servedInstallation } from '../../recogniser/vosk';
import type { Choice, EngineName, EngineState, Installation } from '../../recogniser/vosk';
import type { Settings } from '../shared/settings';

/** An engine as the start screen tells of it. */
export interface EngineHere extends EngineState { readonly name: EngineName; /** Its model, in words. */ readonly model?: string; readonly note?: string; /** Whether it can be narrowed to the grammar. */ readonly takesGrammar: boolean }
export type EnginesHere = Readonly<Record<EngineName, EngineHere>>;

interface BuiltIn { readonly name: string; readonly title: string; readonly note?: string }

/** The engines' states from what the server says is installed: the built-in model's description and the second engine's, either of which may be missing. */
export function enginesFrom(builtIn: BuiltIn | null, second: Installation | null): EnginesHere {
  return {
    embedded: { name: 'embedded', installed: builtIn !== null, takesGrammar: true, ...(builtIn ? { model: builtIn.title, measured: measuredFor('embedded', builtIn.name) } : {}), ...(builtIn?.note ? { note: builtIn.note } : {}) },
    vosk: { name: 'vosk', installed: second !== null, takesGrammar: second?.model.takesGrammar ?? true, ...(second ? { model: `${second.model.name}, licence ${second.model.licence}`, measured: measuredFor('vosk', second.model.name) } : {}) },
  };
}

const isBuiltIn = (value: unknown): value is BuiltIn => typeof (value as BuiltIn | null)?.name === 'string' && typeof (value as BuiltIn).title === 'string';

/** Asks this page's own server what is installed. Rejects when it does not answer. */
export async function enginesHere(): Promise<EnginesHere> {
  const answer = await fetch(new URL('models/model.json', document.baseURI));
  const builtIn: unknown = answer.ok ? await answer.json().catch(() => null) : null;
  return enginesFrom(isBuiltIn(builtIn) ? builtIn : null, await servedInstallation('models/vosk'));
}

/** What will hear, why, and what stands against the wish, if anything. Never throws: an engine that is gone must not keep the examiner from starting. */
export interface Plan extends Choice { readonly speech: Settings['speech']; readonly note?: string }

/** Why the second engine stopped while it heard, since the page was loaded or an engine was chosen. */
let stopped: string | null = null;
export const secondStopped = (why: string | null): void => { stopped = why; };

/** @param whyStopped it is not tried again by itself after it stopped: at the bedside, ears that last come first */
export function planHearing(engines: EnginesHere, { engine: wanted, speech }: Pick<Settings, 'engine' | 'speech'>, whyStopped: string | null = stopped): Plan {
  const isMissing = wanted !== 'automatic' && !engines[wanted].installed;
  const choice = isMissing ? { engine: 'embedded' as const, why: `the ${ENGINE_WORDS[wanted]} is not installed` } : chooseEngine(engines, wanted);
  if (choice.engine === 'vosk' && whyStopped !== null) return { engine: 'embedded', why: 'the second engine stopped', speech: 'short', note: `The second engine stopped, so the built-in engine hears. ${whyStopped}` };
  const free = choice.engine === 'vosk' && (speech === 'free' || !engines.vosk.takesGrammar);
  return {
    ...choice, speech: free ? 'free' : 'short',
    ...(isMissing && wanted === 'vosk' ? { note: `The second engine was chosen and is not installed; the built-in engine hears. Install it with “${INSTALL_COMMAND}”, then run “npm start” again.` } : {}),
  };
}
