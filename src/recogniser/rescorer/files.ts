import type { TokenTable } from './tokens';

/** The rescorer's files as set-up names them. */
export const RESCORER_FILES = { encoder: 'encoder.onnx', decoder: 'decoder.onnx', weights: 'weights.bin', tokens: 'tokens.json' } as const;

/** Their contents. */
export interface RescorerParts {
  readonly encoder: Uint8Array;
  readonly decoder: Uint8Array;
  readonly weights: Uint8Array;
  readonly tokens: TokenTable;
}

/** Gathers the files by whatever way there is to read one. */
export async function readRescorer(read: (name: string) => Promise<Uint8Array>): Promise<RescorerParts> {
  const [encoder, decoder, weights, tokens] = await Promise.all([RESCORER_FILES.encoder, RESCORER_FILES.decoder, RESCORER_FILES.weights, RESCORER_FILES.tokens].map(read)) as [Uint8Array, Uint8Array, Uint8Array, Uint8Array];
  return { encoder, decoder, weights, tokens: JSON.parse(new TextDecoder().decode(tokens)) as TokenTable };
}
