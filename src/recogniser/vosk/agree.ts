import type { Recogniser, Utterance, Verdict } from '../recogniser';

/** From this confidence on, an utterance that one engine was sure of and the other half sure of is accepted. A design choice. */
export const AGREED = 0.9;

/** The chance that one of two is right when they contradict each other: they are never both. */
const rightDespite = (one: number, other: number): number => (one * other < 1 ? (one * (1 - other)) / (1 - one * other) : 0.5);

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}']+/gu, ' ').trim();
const sameText = (a: Utterance, b: Utterance): boolean => plain(a.text) === plain(b.text);

/**
 * A second opinion: joins what two engines heard in the same audio. The result is the first utterance with a new
 * confidence and verdict.
 *
 * Same words: the chance that both are wrong is taken as the product of the chances that each is
 * (they share neither model nor decoder, but they share the microphone, so this is an upper bound on the gain).
 * Different words: queried, with the other reading as an alternative; the chance that the first is right, given that not both can be,
 * on the same assumption. Speech to one and none to the other: queried, half as sure (a design choice: silence has no confidence).
 * An utterance that one engine accepted is never ignored, and two doubts never make an acceptance.
 *
 * @param first the utterance on record
 * @param second what the other engine heard, or null if it heard nothing
 * @param same whether both mean the same; by default, the same words
 */
export function agree(first: Utterance, second: Utterance | null, same: (a: Utterance, b: Utterance) => boolean = sameText): Utterance {
  if (!second || (second.verdict === 'ignored' && first.verdict !== 'ignored')) {
    if (first.verdict === 'ignored') return first;
    return { ...first, verdict: 'queried', confidence: first.confidence / 2, why: 'Only one of two engines heard speech for the recorder.' };
  }
  if (first.verdict === 'ignored') {
    if (second.verdict === 'ignored') return first;
    return { ...first, verdict: 'queried', confidence: second.confidence / 2, why: `The other engine heard "${second.text}".`, alternatives: withReading(first, second) };
  }
  if (!same(first, second)) {
    return { ...first, verdict: 'queried', confidence: rightDespite(first.confidence, second.confidence), why: `The other engine heard "${second.text}".`, alternatives: withReading(first, second) };
  }
  const confidence = 1 - (1 - first.confidence) * (1 - second.confidence);
  const sure = [first, second].filter(({ verdict }) => verdict === 'accepted').length;
  const { why, ...rest } = first;
  if (sure === 2 || (sure === 1 && confidence >= AGREED)) return { ...rest, verdict: 'accepted', confidence };
  return { ...rest, verdict: 'queried', confidence, why: why ?? 'Both engines heard the same, and neither was sure.' };
}

const withReading = (first: Utterance, second: Utterance): Utterance['alternatives'] =>
  [{ text: second.text, margin: 0 }, ...first.alternatives.filter(({ text }) => plain(text) !== plain(second.text))];

const DOUBT: readonly Verdict[] = ['accepted', 'queried', 'ignored'];

/** What an engine heard in one clip as one utterance, as sure as its least sure part; null if there was nothing for the recorder. */
export function asOne(heard: readonly Utterance[]): Utterance | null {
  const ours = heard.filter(({ verdict }) => verdict !== 'ignored');
  const [first] = ours;
  if (!first) return null;
  return {
    ...first, text: ours.map(({ text }) => text).join(' '), words: ours.flatMap(({ words }) => words), end: ours.at(-1)?.end ?? first.end,
    confidence: Math.min(...ours.map(({ confidence }) => confidence)),
    verdict: ours.reduce<Verdict>((worst, { verdict }) => (DOUBT.indexOf(verdict) > DOUBT.indexOf(worst) ? verdict : worst), 'accepted'),
  };
}

/**
 * Runs one clip through a loaded engine and returns what it heard, in order.
 * @param audio mono, 16 kHz
 * @throws Error if the engine fails or loses audio on the way (clips are shorter than half a minute)
 */
export async function hearClip(recogniser: Recogniser, audio: Float32Array): Promise<Utterance[]> {
  const heard: Utterance[] = [];
  let failure: string | null = null;
  const stop = recogniser.listen((event) => {
    if (event.type === 'utterance') heard.push(event.utterance);
    if (event.type === 'failed') failure = event.message;
  });
  try {
    recogniser.push(audio);
    await recogniser.finish();
  } finally {
    stop();
  }
  if (failure !== null) throw new Error(failure);
  return heard;
}
