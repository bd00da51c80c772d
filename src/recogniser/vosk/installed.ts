import { pageHost, type Host } from './host';
import type { SoundsLike } from './sounds-like';

/** What set-up wrote about the installed model, beside it (models/files/vosk/installed.json). */
export interface InstalledModel {
  readonly name: string;
  readonly licence: string;
  /** Where it came from: an address or a path. */
  readonly source: string;
  /** File name of the repacked archive (".tgz": servers tend to unpack ".gz" on the way), with the first digits of its sha256, so that a new model is never taken for a cached old one. */
  readonly archive: string;
  readonly sha256: string;
  /** Bytes of the archive and of the unpacked files. */
  readonly archiveBytes: number;
  readonly unpackedBytes: number;
  /** Words in its vocabulary. */
  readonly words: number;
  /** Whether its graph can be narrowed to a phrase list; else it hears only freely. */
  readonly takesGrammar: boolean;
}

export const INSTALLED = 'installed.json';
export const SOUNDS_LIKE = 'sounds-like.json';
export const INSTALL_COMMAND = 'npm run model:vosk';

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

async function readJson(host: Host, base: string, name: string): Promise<Record<string, unknown> | null> {
  let answer: Response;
  try {
    answer = await host.fetch(new URL(name, base));
  } catch (error) {
    throw new Error(`The second engine's model could not be reached (${(error as Error).message}). Is the recorder's own server still running?`);
  }
  if (!answer.ok) return null;
  const value: unknown = await answer.json().catch(() => null);
  return isRecord(value) ? value : null;
}

/**
 * Reads what is installed.
 * @param base address of the model's folder, relative to the page
 * @returns the description, the spellings and the archive's address; null if no model is installed there
 * @throws Error if the server can't be reached
 */
export async function installedModel(base: string, host: Host = pageHost()): Promise<{ readonly model: InstalledModel; readonly soundsLike: SoundsLike; readonly archive: string } | null> {
  const folder = new URL(base.replace(/\/?$/, '/'), host.home).href;
  const model = await readJson(host, folder, INSTALLED);
  if (!model || typeof model.archive !== 'string' || typeof model.unpackedBytes !== 'number') return null;
  const soundsLike = await readJson(host, folder, SOUNDS_LIKE);
  if (!soundsLike || !Array.isArray(soundsLike.known) || !isRecord(soundsLike.spellings) || !isRecord(soundsLike.unheard)) return null;
  return { model: model as unknown as InstalledModel, soundsLike: soundsLike as unknown as SoundsLike, archive: new URL(model.archive, folder).href };
}
