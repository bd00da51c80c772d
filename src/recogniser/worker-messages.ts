import type { ContrastClass, SpokenGrammar } from '../grammar';
import type { RecogniserEvent } from './recogniser';
import type { VoiceProfile } from './voice-profile';

export type ToWorker =
  | { readonly type: 'load'; readonly call: number; readonly modelUrl: string; readonly contrasts: readonly ContrastClass[]; readonly partials: boolean; readonly keepAudio: boolean; readonly profile: VoiceProfile | null }
  | { readonly type: 'grammar'; readonly call: number; readonly grammar: SpokenGrammar }
  | { readonly type: 'audio'; readonly audio: Float32Array }
  | { readonly type: 'finish'; readonly call: number };

export type FromWorker =
  | { readonly type: 'event'; readonly event: RecogniserEvent }
  | { readonly type: 'done'; readonly call: number }
  | { readonly type: 'failed'; readonly call: number; readonly message: string };
