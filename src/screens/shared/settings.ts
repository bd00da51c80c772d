import { isEngine } from '../../recogniser/vosk';
import type { EngineName } from '../../recogniser/vosk';
import type { KeyMap } from './keys';
import { parseKeyMap } from './keys';

/** How this device likes it. Kept beside the examinations, never in them. */
export interface Settings {
  readonly keys: KeyMap;
  readonly sounds: boolean;
  readonly speak: boolean;
  readonly look: 'lamp' | 'paper' | 'by screen';
  /** Which engine hears: the best that was measured, or one of them. */
  readonly engine: 'automatic' | EngineName;
  /** How the examiner speaks: in the short sentences of the grammar, or freely, which only the second engine can hear. */
  readonly speech: 'short' | 'free';
}

const KEY = 'lumbrical settings';

/** Storage may be blocked: then settings hold for as long as the page does. */
let inMemory: Settings | undefined;
function read(): Partial<Record<keyof Settings, unknown>> {
  try { return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Record<keyof Settings, unknown>>; } catch { return {}; }
}

export function loadSettings(): Settings {
  if (inMemory) return inMemory;
  const stored = read();
  return {
    keys: parseKeyMap(JSON.stringify(stored.keys ?? {})),
    sounds: stored.sounds !== false, speak: stored.speak !== false,
    look: stored.look === 'lamp' || stored.look === 'paper' ? stored.look : 'by screen',
    engine: typeof stored.engine === 'string' && isEngine(stored.engine) ? stored.engine : 'automatic',
    speech: stored.speech === 'free' ? 'free' : 'short',
  };
}

export function saveSettings(settings: Settings): void {
  try { localStorage.setItem(KEY, JSON.stringify(settings)); } catch { inMemory = settings; }
}
