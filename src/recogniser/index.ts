/** From speech to utterances: one interface, and the embedded engine in a worker. For Node import node.ts. */
export type { Alternative, HeardWord, Recogniser, RecogniserEvent, Utterance, Verdict } from './recogniser';
export { Listeners } from './listeners';
export { createWorkerRecogniser, type WorkerRecogniserOptions } from './worker-recogniser';
export { ENGINE as EMBEDDED_ENGINE } from './embedded';
export { SAMPLE_RATE } from './endpointer';
export { createEnrolment, type Enrolment } from './enrolment';
export { readPrompts, LEAST_READINGS } from './enrol';
export type { VoiceProfile } from './voice-profile';
export { Endpointer } from './endpointer';
export { snrOf } from './spectrum';
