import type { KeyMap } from './keys';
import { parseKeyMap } from './keys';

/** How this device likes it. Kept beside the examinations, never in them. */
export interface Settings { readonly keys: KeyMap; readonly sounds: boolean; readonly speak: boolean; readonly look: 'lamp' | 'paper' | 'by screen' }

const KEY = 'lumbrical settings';

/** Storage may be blocked: then the usual settings hold for as long as the page does. */
function read(): Partial<Record<keyof Settings, unknown>> {
  try { return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Record<keyof Settings, unknown>>; } catch { return {}; }
}

export function loadSettings(): Settings {
  const stored = read();
  return {
    keys: parseKeyMap(JSON.stringify(stored.keys ?? {})),
    sounds: stored.sounds !== false, speak: stored.speak !== false,
    look: stored.look === 'lamp' || stored.look === 'paper' ? stored.look : 'by screen',
  };
}

export function saveSettings(settings: Settings): void {
  try { localStorage.setItem(KEY, JSON.stringify(settings)); } catch { /* lasts as long as the page */ }
}
