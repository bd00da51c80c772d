/// <reference lib="webworker" />
/** The thread of an enrolment: it holds the readings' features until the profile is made, and ends with it. */
import { openDecoder } from './decoder';
import { align, profileOf, type Enroller, type Fitted } from './enrol';
import type { EnrolAnswer, EnrolRequest } from './enrolment';
import { LISTENER } from './listener';
import { chosenModel, startModule } from './serve';
import { readCodebooks } from './voice-profile';

let enroller: (Enroller & { readonly model: string }) | null = null;
const readings = new Map<string, Fitted>();

async function codebooks(address: string): Promise<ReturnType<typeof readCodebooks>> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`The acoustic model could not be read (${answer.status} for ${address}). Run "npm start" again to fetch it.`);
  return readCodebooks(new Uint8Array(await answer.arrayBuffer()));
}

async function answer(request: EnrolRequest): Promise<Omit<Extract<EnrolAnswer, { ok: true }>, 'call' | 'ok'>> {
  if (request.type === 'load') {
    const { name } = await chosenModel(request.modelUrl);
    const folder = `${request.modelUrl}${name}`;
    const [means, variances] = await Promise.all([codebooks(`${folder}/means`), codebooks(`${folder}/variances`)]);
    enroller = { decoder: await openDecoder(await startModule(), folder, LISTENER.check), pronunciations: request.pronunciations, means, variances, model: name };
    return {};
  }
  if (!enroller) throw new Error('The speech engine is not loaded yet.');
  if (request.type === 'profile') return { profile: profileOf(enroller, [...readings.values()], enroller.model, new Date()) };
  const fitted = align(enroller, request.reading);
  if (fitted) readings.set(request.reading.text, fitted);
  return { fits: fitted !== null };
}

let queue: Promise<void> = Promise.resolve();
self.onmessage = ({ data }: MessageEvent<EnrolRequest>): void => {
  const post = (message: EnrolAnswer): void => { self.postMessage(message); };
  queue = queue.then(() => answer(data)).then(
    (result) => post({ call: data.call, ok: true, ...result }),
    (error: unknown) => post({ call: data.call, ok: false, message: error instanceof Error ? error.message : String(error) }),
  );
};
