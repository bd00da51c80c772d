import { framesInWords } from './decoder';
import type { Candidate, Hearing } from './listener';
import type { Alternative } from './recogniser';
import type { Weigh, Weight } from './rescorer/rescorer';

/**
 * Two independent judges of one stretch of audio put together: the acoustic model, which gives candidates with a score each,
 * and the network, which weighs the same candidates.
 */

/** How much a nat of the network counts beside one of the acoustic model, whose frames are far from independent. Chosen on tuning voices; anything from 8 to 15 does. */
export const NETWORK_SHARE = 10;
/** Candidates around the best one are sought again while another one comes out best, at most so many times. */
const ROUNDS = 2;
const MOST_ALTERNATIVES = 5;

type Weighed = Candidate & { readonly weight: Weight };
const together = ({ overLoop, weight }: Weighed): number => overLoop + NETWORK_SHARE * weight.total;

/** What surrounds the weighing of one stretch. */
export interface ReadingParts {
  readonly weigh: Weigh;
  /** Candidates around another sentence than the one heard first. */
  readonly around: (text: string) => readonly Candidate[];
  readonly sameMeaning?: ((one: string, other: string) => boolean) | undefined;
}

/** The hearing as both judges see it: the best candidate first, and margins over what means something else. */
export async function reading(hearing: Hearing, { weigh, around, sameMeaning }: ReadingParts): Promise<Hearing> {
  const weighed: Weighed[] = [];
  const add = async (candidates: readonly Candidate[]): Promise<Weighed> => {
    const fresh = candidates.filter(({ text }) => !weighed.some((known) => known.text === text));
    const weights = await weigh(fresh.map(({ text }) => text));
    weighed.push(...fresh.flatMap((candidate, i) => { const weight = weights[i]; return weight ? [{ ...candidate, weight }] : []; }));
    weighed.sort((a, b) => together(b) - together(a));
    const [best] = weighed;
    if (!best) throw new Error('The network weighed no candidate.');
    return best;
  };

  const explored = new Set([hearing.path.words.map(({ word }) => word).join(' ')]);
  let best = await add(hearing.candidates);
  for (let round = 0; round < ROUNDS && !explored.has(best.text); round += 1) {
    explored.add(best.text);
    best = await add(around(best.text));
  }

  const frames = Math.max(1, hearing.evidence.frames);
  const spoken = framesInWords(best.path);
  const others = weighed.filter(({ text }) => text !== best.text && !sameMeaning?.(best.text, text));
  const alternatives: Alternative[] = others.slice(0, MOST_ALTERNATIVES).map((other) => ({ text: other.text, margin: (together(best) - together(other)) / frames }));
  return {
    path: best.path,
    candidates: weighed,
    alternatives,
    evidence: {
      ...hearing.evidence, spoken, words: best.path.words.length,
      overLoop: best.overLoop / Math.max(1, spoken),
      margin: others[0] ? together(best) - together(others[0]) : null,
      perToken: best.weight.perToken,
    },
  };
}
