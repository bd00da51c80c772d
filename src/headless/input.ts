import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { AudioFileError, decodeWav } from '../microphone/wav';

/** A file that cannot be read as what it should be: exit code 1. The message names the file. */
export class InputError extends Error { override readonly name = 'InputError'; }

export type Source =
  | { readonly kind: 'recording'; readonly from: string; readonly samples: Float32Array }
  | { readonly kind: 'notes'; readonly from: string; readonly lines: readonly string[] };

const REASONS: Readonly<Record<string, string>> = { ENOENT: 'there is no such file.', EISDIR: 'this is a folder, not a file.', EACCES: 'it may not be read.' };

function bytesOf(from: string, folder: string): Uint8Array {
  try { return readFileSync(resolve(folder, from)); } catch (error) {
    throw new InputError(`${from}: ${REASONS[(error as NodeJS.ErrnoException).code ?? ''] ?? (error as Error).message}`);
  }
}

function textOf(bytes: Uint8Array, from: string): string {
  try { return new TextDecoder('utf-8', { fatal: true }).decode(bytes); } catch { throw new InputError(`${from}: this is not UTF-8 text. Save it as UTF-8.`); }
}
/** Reads a text file. @throws InputError naming the file and what is wrong with it */
export const readText = (from: string, folder: string): string => textOf(bytesOf(from, folder), from);

function linesOf(bytes: Uint8Array, from: string): readonly string[] {
  const text = textOf(bytes, from);
  if (text.includes('\0')) throw new InputError(`${from}: this is not text. Notes are UTF-8 text, one utterance a line.`);
  const lines = text.split(/\r\n|\r|\n/).map((line) => line.trim()).filter(Boolean);
  if (lines.length === 0) throw new InputError(`${from}: the file is empty.`);
  return lines;
}

/**
 * Reads a file as a recording or as notes, by its ending.
 * @param folder what relative names start from
 * @throws InputError naming the file and what is wrong with it
 */
export function readSource(from: string, folder: string): Source {
  const bytes = bytesOf(from, folder);
  if (/\.txt$/i.test(from)) return { kind: 'notes', from, lines: linesOf(bytes, from) };
  if (!/\.wav$/i.test(from)) throw new InputError(`${from}: only .wav recordings and .txt notes are read.`);
  try { return { kind: 'recording', from, samples: decodeWav(bytes, from).samples }; } catch (error) {
    if (error instanceof AudioFileError) throw new InputError(error.message);
    throw error;
  }
}
