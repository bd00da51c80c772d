import type { Verdict } from './recogniser';

/** What is known of an utterance. Scores are in nats; a frame is 10 ms. */
export interface Evidence {
  /** Acoustic score of the heard sentence minus that of a free phone loop on the same audio, per frame of its words. */
  readonly overLoop: number;
  /** Score of the heard sentence minus that of its best rival with another meaning (with a network, of both judges together), or null when it has none. */
  readonly margin: number | null;
  /** Logarithm of the probability that the network gives each token of the heard sentence; null without a network. */
  readonly perToken: number | null;
  /** Frames of the whole stretch, and those in words. */
  readonly frames: number;
  readonly spoken: number;
  readonly words: number;
  /** Loud half of the stretch over the noise before it, dB. */
  readonly snr: number;
}

export interface Judgement { readonly verdict: Verdict; readonly confidence: number; readonly why?: string }

/**
 * With the network: two logistic curves over what both judges say, fitted by `npm run bench:verdict`, which prints them
 * beside what each limit lets through and asks about. Tuning sentences and voices only.
 */
export const CURVES = {
  /** That the heard sentence was said, against another or none. `margin` counts up to `wide` nats. */
  right: { base: 2.37, margin: 0.81 / 20, perToken: 1.25, overLoop: 0.43, wide: 200 },
  /** That some sentence was said to the recorder, against speech that is not for it. */
  meant: { base: 12, perToken: 1.52, overLoop: 2.15 },
} as const;

/**
 * Limits of the three outcomes. In loud noise (`below` so many dB) both judges err together more often than the curve says:
 * there 0.93 let none of 160 tuning sentences through wrongly, 0.86 one. `margin` is for hearing without the network: 38 nats let nothing wrong through on the tuning set;
 * there the score over the phone loop alone tells speech for the recorder (lowest -1.1 a frame, in quiet) from other speech (highest -1.7).
 */
export const THRESHOLDS = { accept: 0.86, inNoise: { below: 16, accept: 0.93 }, ignore: 0.25, without: { accept: 0.7, ignore: 0.08, margin: 38 } } as const;

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

/** Probability that the utterance is a sentence of the grammar at all. */
export function forRecorder({ perToken, overLoop }: Evidence): number {
  if (perToken === null) return logistic(7 * (overLoop + 1.4));
  return logistic(CURVES.meant.base + CURVES.meant.perToken * perToken + CURVES.meant.overLoop * overLoop);
}

/** Probability that the heard sentence is what was said. */
export function heardRight(evidence: Evidence): number {
  const { perToken, overLoop, margin } = evidence;
  if (perToken === null) return forRecorder(evidence) * (margin === null ? 1 : logistic((margin - 16) / 8));
  const { right } = CURVES;
  return logistic(right.base + right.margin * Math.min(margin ?? right.wide, right.wide) + right.perToken * perToken + right.overLoop * overLoop);
}

/** From which probability on an utterance is accepted. */
const limitFor = ({ snr }: Evidence): number => (snr < THRESHOLDS.inNoise.below ? THRESHOLDS.inNoise.accept : THRESHOLDS.accept);

const NOT_MEANT = 'This did not sound like a finding or an order.';
const UNCLEAR = 'Not heard clearly enough to be sure.';
const CLOSE = 'Another reading sounds almost the same.';

/** The three outcomes, decided here and nowhere else. */
export function judge(evidence: Evidence): Judgement {
  const meant = forRecorder(evidence);
  const confidence = heardRight(evidence);
  if (evidence.perToken === null) {
    const limits = THRESHOLDS.without;
    if (meant < limits.ignore) return { verdict: 'ignored', confidence, why: NOT_MEANT };
    if (meant < limits.accept) return { verdict: 'queried', confidence, why: UNCLEAR };
    if (evidence.margin !== null && evidence.margin < limits.margin) return { verdict: 'queried', confidence, why: CLOSE };
    return { verdict: 'accepted', confidence };
  }
  if (meant < THRESHOLDS.ignore) return { verdict: 'ignored', confidence, why: NOT_MEANT };
  if (confidence >= limitFor(evidence)) return { verdict: 'accepted', confidence };
  // Whichever doubt a wide margin would lift is told.
  const alone = heardRight({ ...evidence, margin: null });
  return { verdict: 'queried', confidence, why: alone >= limitFor(evidence) ? CLOSE : UNCLEAR };
}
