import { createStore, del, get, set } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';
import type { VoiceProfile } from '../../recogniser';

/** The examiner's voice profile in this browser: numbers about a voice, no sound. It stays here and goes when it is deleted. */
let opened: UseStore | undefined;
const store = (): UseStore => (opened ??= createStore('lumbrical voice', 'profile'));
const KEY = 'examiner';

const isProfile = (value: unknown): value is VoiceProfile => {
  const { version, model, transform } = (value ?? {}) as Partial<VoiceProfile>;
  return version === 1 && typeof model === 'string' && Array.isArray(transform) && transform.length > 0
    && transform.every((rows) => Array.isArray(rows) && rows.every((row) => Array.isArray(row) && row.length === rows.length + 1 && row.every(Number.isFinite)));
};

/** Null when there is none, or none that can be used: hearing must not depend on it. Never rejects. */
export async function loadVoice(): Promise<VoiceProfile | null> {
  try {
    const value: unknown = await get(KEY, store());
    return isProfile(value) ? value : null;
  } catch { return null; }
}

export async function saveVoice(profile: VoiceProfile): Promise<void> {
  try { await set(KEY, profile, store()); } catch { throw new Error('The voice profile could not be kept. This browser stores nothing for this page: leave the private window, or free some space.'); }
}

export async function deleteVoice(): Promise<void> {
  try { await del(KEY, store()); } catch { throw new Error('The voice profile could not be deleted. Reload the page and try again, or clear this page’s data in the browser.'); }
}
