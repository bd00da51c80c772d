/** From speech to utterances: one interface, and the embedded engine in a worker. For Node import node.ts. */
export type { Alternative, HeardWord, Recogniser, RecogniserEvent, Utterance, Verdict } from './recogniser';
export { createWorkerRecogniser, type WorkerRecogniserOptions } from './worker-recogniser';
export { ENGINE as EMBEDDED_ENGINE } from './embedded';
export { SAMPLE_RATE } from './endpointer';
