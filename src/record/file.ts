import type { z } from 'zod';
import { base64ToPcm16, fromPcm16, pcm16ToBase64, toPcm16 } from './audio';
import type { RecordEvent } from './event';
import { fileSchema, toIssues } from './schema';
import type { Issue } from './schema';
import type { Store, UtteranceAudio } from './store';
import { StoreFault } from './store';

export type ExaminationFile = z.infer<typeof fileSchema>;

/** Events and audio that a failing store has not taken yet. */
export interface Unsaved { readonly events: readonly RecordEvent[]; readonly audio: readonly UtteranceAudio[] }

/** An examination as one JSON file: events and audio, kept or not yet kept. Rejects with a StoreFault when there is nothing to export. */
export async function exportExamination(store: Store, examinationId: string, exportedAt: string, unsaved: Unsaved = { events: [], audio: [] }): Promise<string> {
  // With a store that fails, what is in memory must still get out.
  const kept = await store.read(examinationId).catch((error: unknown) => { if (unsaved.events.length) return [] as unknown[]; throw error; });
  const taken = new Set(kept.map((event) => (event as RecordEvent).seq));
  const events = [...kept as RecordEvent[], ...unsaved.events.filter(({ seq }) => !taken.has(seq))];
  if (events.length === 0) throw new StoreFault('not found');
  const heard = events.flatMap((event) => (event?.happening?.type === 'heard' ? [event.happening.utterance.id] : []));
  const sounds = await Promise.all(heard.map(async (utteranceId) => ({
    utteranceId, samples: unsaved.audio.find((audio) => audio.utteranceId === utteranceId)?.samples ?? await store.audio(examinationId, utteranceId).catch(() => undefined),
  })));
  const audio = sounds.flatMap(({ utteranceId, samples }) => (samples ? [{ utteranceId, sampleRate: 16000, pcm16: pcm16ToBase64(toPcm16(samples)) }] : []));
  return JSON.stringify({ format: 'lumbrical examination', version: 1, exportedAt, examinationId, events, audio }, null, 1);
}

export type FileReading =
  | { readonly ok: true; readonly examinationId: string; readonly events: readonly RecordEvent[]; readonly audio: readonly UtteranceAudio[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Reads an examination file, collecting everything that is wrong with it. Never throws. */
export function readExaminationFile(text: string): FileReading {
  let value: unknown;
  try { value = JSON.parse(text); } catch (error) { return { ok: false, issues: [{ path: '', message: `Not a JSON file: ${(error as Error).message}` }] }; }
  const checked = fileSchema.safeParse(value);
  if (!checked.success) return { ok: false, issues: toIssues(checked.error) };
  const { examinationId, events, audio } = checked.data;
  const issues: Issue[] = [];
  events.forEach((event, index) => {
    if (event.examinationId !== examinationId) issues.push({ path: `events[${index}].examinationId`, message: `Belongs to another examination, not ${examinationId}.` });
    if (event.seq !== index) issues.push({ path: `events[${index}].seq`, message: `Expected ${index}, found ${event.seq}: an event is missing, doubled or out of order.` });
  });
  if (events[0]?.happening.type !== 'begun') issues.push({ path: 'events[0]', message: 'An examination starts with its set-up.' });
  if (issues.length) return { ok: false, issues };
  return { ok: true, examinationId, events: (value as ExaminationFile).events as RecordEvent[], audio: audio.map(({ utteranceId, pcm16 }) => ({ utteranceId, samples: fromPcm16(base64ToPcm16(pcm16)) })) };
}

/** Stores a file's examination. An examination that is there already is refused, so that nothing is overwritten. */
export async function importExamination(store: Store, text: string): Promise<FileReading> {
  const reading = readExaminationFile(text);
  if (!reading.ok) return reading;
  if ((await store.read(reading.examinationId)).length) return { ok: false, issues: [{ path: 'examinationId', message: 'This examination is on this device already. Delete it there first if the file is the one to keep.' }] };
  await store.append(reading.events, reading.audio);
  return reading;
}

