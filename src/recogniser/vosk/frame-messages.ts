import type { SpokenGrammar } from '../../grammar';
import type { RecogniserEvent } from '../recogniser';
import type { Installation } from './installed';
import type { VoskOptions } from './options';

/** What the recorder's page and the second engine's own document say to each other over their port. Every question gets one answer. */
export type Question =
  | { readonly type: 'load'; readonly options: VoskOptions; readonly installation: Installation; readonly archive: ArrayBuffer }
  | { readonly type: 'grammar'; readonly grammar: SpokenGrammar }
  | { readonly type: 'audio'; readonly audio: Float32Array }
  | { readonly type: 'finish' };

export type ToFrame = Question & { readonly call: number };

export type FromFrame =
  | { readonly type: 'here' }
  | { readonly type: 'event'; readonly event: RecogniserEvent }
  | { readonly type: 'done'; readonly call: number }
  | { readonly type: 'failed'; readonly call: number; readonly message: string };
