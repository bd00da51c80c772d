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
export const NOT_INSTALLED = `The second engine's model is not installed. Run "${INSTALL_COMMAND}" once, with a network connection or with a path to the model, then choose this engine again.`;

/** An installed model without its archive. */
export interface Installation { readonly model: InstalledModel; readonly soundsLike: SoundsLike }

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Makes sense of the two descriptions beside a model; null when either is missing or damaged. */
export function toInstallation(model: unknown, soundsLike: unknown): Installation | null {
  if (!isRecord(model) || typeof model.archive !== 'string' || typeof model.archiveBytes !== 'number') return null;
  if (!isRecord(soundsLike) || !Array.isArray(soundsLike.known) || !isRecord(soundsLike.spellings) || !isRecord(soundsLike.unheard)) return null;
  return { model: model as unknown as InstalledModel, soundsLike: soundsLike as unknown as SoundsLike };
}

async function served(url: URL, signal?: AbortSignal): Promise<Response> {
  try { return await fetch(url, signal ? { signal } : {}); } catch (error) {
    throw new Error(`The second engine's model could not be reached (${(error as Error).message}). Is the recorder's own server still running?`);
  }
}

const folderAt = (base: string): string => new URL(base.replace(/\/?$/, '/'), document.baseURI).href;

/**
 * What the recorder's own server has installed, or null.
 * @param base address of the model's folder, relative to the page
 * @throws Error if the server can't be reached
 */
export async function servedInstallation(base: string, signal?: AbortSignal): Promise<Installation | null> {
  const readJson = async (name: string): Promise<unknown> => {
    const answer = await served(new URL(name, folderAt(base)), signal);
    return answer.ok ? answer.json().catch(() => null) as Promise<unknown> : null;
  };
  const model = await readJson(INSTALLED);
  return model === null ? null : toInstallation(model, await readJson(SOUNDS_LIKE));
}

/** The archive of an installed model. @throws Error if it is not there or incomplete */
export async function servedArchive(base: string, { archive, archiveBytes }: InstalledModel, signal?: AbortSignal): Promise<ArrayBuffer> {
  const answer = await served(new URL(archive, folderAt(base)), signal);
  if (!answer.ok) throw new Error(`The second engine's model archive is not where it should be (${answer.status}). Install the model again with "${INSTALL_COMMAND}".`);
  const bytes = await answer.arrayBuffer();
  if (bytes.byteLength !== archiveBytes) throw new Error(`The second engine's model archive has ${bytes.byteLength} bytes instead of ${archiveBytes}: it is damaged. Install the model again with "${INSTALL_COMMAND}".`);
  return bytes;
}
