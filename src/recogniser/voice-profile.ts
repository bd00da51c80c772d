/**
 * Adapts the acoustic model to one speaker (and microphone) from a dozen sentences that the speaker has read.
 * Pure: features and their phones in, a profile out; a profile and the model's means in, adapted means out.
 *
 * The means of all Gaussians are moved by one affine map per feature stream: maximum likelihood linear regression
 * (Leggetter and Woodland, Computer Speech and Language 1995;9:171-185, from memory), with a pull towards "no change" so that
 * little speech changes little. tests/bench/voice-profile.ts measures it beside what was tried and left out.
 */

/** What is kept of a speaker: no sound, no words. */
export interface VoiceProfile {
  readonly version: 1;
  /** The acoustic model it was computed for; it fits no other. */
  readonly model: string;
  /** ISO date and time. */
  readonly made: string;
  /** Frames of 10 ms of speech it was computed from. */
  readonly frames: number;
  /** For each stream (cepstra, their differences, the differences' differences) one row per feature: its weights, then its offset. */
  readonly transform: Transform;
}
export type Transform = readonly (readonly (readonly number[])[])[];

/** One utterance: a row of features per frame, and the phone of each frame (null in silence). */
export interface Aligned { readonly features: readonly Float64Array[]; readonly phones: readonly (string | null)[] }

/** Codebooks of Gaussians as the model files hold them ("s3" format of the CMU Sphinx tools): one codebook per phone. */
export interface Codebooks { readonly codebooks: number; readonly streams: number; readonly densities: number; readonly width: number; readonly values: Float32Array }

/** The model's codebooks are in the order of its phones: alphabetical, with silence and noises among them. */
export const CODEBOOK_PHONES = '+NSN+ +SPN+ AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH SIL T TH UH UW V W Y Z ZH'.split(' ');
const SPEECH = CODEBOOK_PHONES.flatMap((phone, i) => (/^[A-Z]+$/.test(phone) && phone !== 'SIL' ? [i] : []));

const HEADER_END = 'endhdr\n';
const ENDIAN = 0x11223344;

function layout(bytes: Uint8Array): Omit<Codebooks, 'values'> & { readonly start: number; readonly count: number } {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 400)).indexOf(HEADER_END);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = head + HEADER_END.length;
  const next = (): number => { const value = view.getInt32(at, true); at += 4; return value; };
  if (head < 0 || next() !== ENDIAN) throw new Error('This is not a file of Gaussians that a voice profile can change.');
  const [codebooks, streams, densities] = [next(), next(), next()];
  const widths = Array.from({ length: streams }, next);
  const width = widths[0] ?? 0;
  const count = next();
  if (codebooks !== CODEBOOK_PHONES.length || widths.some((other) => other !== width) || count !== codebooks * streams * densities * width)
    throw new Error('This acoustic model is built in another way than the voice profile expects.');
  return { codebooks, streams, densities, width, start: at, count };
}

/** Reads a model's means or variances. Throws on any other file. */
export function readCodebooks(bytes: Uint8Array): Codebooks {
  const { start, count, ...shape } = layout(bytes);
  return { ...shape, values: new Float32Array(bytes.slice(start, start + 4 * count).buffer) };
}

/** The format's checksum over 32-bit words, from the first number after the byte-order mark. */
export function checksum(bytes: Uint8Array, from: number, to: number): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let sum = 0;
  for (let at = from; at < to; at += 4) sum = (((sum << 20) | (sum >>> 12)) + view.getUint32(at, true)) >>> 0;
  return sum;
}

const place = ({ streams, densities, width }: Omit<Codebooks, 'values'>, codebook: number, stream: number, density: number): number => ((codebook * streams + stream) * densities + density) * width;

/** Moves the means of a model file, in place: every phone's, not those of silence and noises. */
export function adaptMeans(bytes: Uint8Array, transform: Transform): void {
  const shape = layout(bytes);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const mean = new Float64Array(shape.width);
  for (const codebook of SPEECH) for (let stream = 0; stream < shape.streams; stream += 1) for (let density = 0; density < shape.densities; density += 1) {
    const at = shape.start + 4 * place(shape, codebook, stream, density);
    for (let i = 0; i < shape.width; i += 1) mean[i] = view.getFloat32(at + 4 * i, true);
    transform[stream]?.forEach((row, i) => view.setFloat32(at + 4 * i, affine(row, mean, 0), true));
  }
  const end = shape.start + 4 * shape.count;
  const first = shape.start - 4 * (shape.streams + 4);
  if (bytes.length >= end + 4) view.setUint32(end, checksum(bytes, first, end), true);
}

/** Weights times a vector, plus the offset that stands last. */
function affine(row: readonly number[], vector: Float64Array | Float32Array, from: number): number {
  const width = row.length - 1;
  let sum = row[width] ?? 0;
  for (let j = 0; j < width; j += 1) sum += (row[j] ?? 0) * (vector[from + j] ?? 0);
  return sum;
}

const identity = (streams: number, width: number): number[][][] =>
  Array.from({ length: streams }, () => Array.from({ length: width }, (_, i) => Array.from({ length: width + 1 }, (_unused, j) => (i === j ? 1 : 0))));

/** How much speech says "no change", in frames; chosen on the tuning voices (see the bench). */
export const PRIOR_FRAMES = 200;
const ROUNDS = 3;

/**
 * Estimates the map from speech whose phones are known.
 * @param prior frames' worth of pull towards no change
 */
export function estimateTransform(means: Codebooks, variances: Codebooks, utterances: readonly Aligned[], prior = PRIOR_FRAMES): Transform {
  const { streams, width } = means;
  let transform: number[][][] = identity(streams, width);
  for (let round = 0; round < ROUNDS; round += 1)
    transform = transform.map((rows, stream) => solveStream(gather(means, variances, utterances, rows, stream), means, variances, stream, prior));
  return transform;
}

/** For each Gaussian of a stream how many frames it explains, and their sum. */
interface Counts { readonly weight: Float64Array; readonly sum: Float64Array }

function gather(means: Codebooks, variances: Codebooks, utterances: readonly Aligned[], rows: readonly (readonly number[])[], stream: number): Counts {
  const { codebooks, densities, width } = means;
  const counts = { weight: new Float64Array(codebooks * densities), sum: new Float64Array(codebooks * densities * width) };
  const moved = new Map<number, { mean: Float64Array; base: Float64Array }>();
  const codebookOf = (index: number): { mean: Float64Array; base: Float64Array } => {
    const known = moved.get(index);
    if (known) return known;
    const made = { mean: new Float64Array(densities * width), base: new Float64Array(densities) };
    for (let density = 0; density < densities; density += 1) {
      const at = place(means, index, stream, density);
      rows.forEach((row, i) => { made.mean[density * width + i] = affine(row, means.values, at); });
      for (let i = 0; i < width; i += 1) made.base[density] = (made.base[density] ?? 0) - 0.5 * Math.log(floored(variances.values[at + i]));
    }
    moved.set(index, made);
    return made;
  };
  const likelihood = new Float64Array(densities);
  for (const { features, phones } of utterances) features.forEach((frame, t) => {
    const index = CODEBOOK_PHONES.indexOf(phones[t] ?? '');
    if (index < 0) return;
    const { mean, base } = codebookOf(index);
    let best = -Infinity;
    for (let density = 0; density < densities; density += 1) {
      const at = place(means, index, stream, density);
      let score = base[density] ?? 0;
      for (let i = 0; i < width; i += 1) score -= ((frame[stream * width + i] ?? 0) - (mean[density * width + i] ?? 0)) ** 2 / (2 * floored(variances.values[at + i]));
      likelihood[density] = score;
      best = Math.max(best, score);
    }
    let total = 0;
    for (let density = 0; density < densities; density += 1) { likelihood[density] = Math.exp((likelihood[density] ?? 0) - best); total += likelihood[density] ?? 0; }
    for (let density = 0; density < densities; density += 1) {
      const share = (likelihood[density] ?? 0) / total;
      if (share < 1e-4) continue;
      const gaussian = index * densities + density;
      counts.weight[gaussian] = (counts.weight[gaussian] ?? 0) + share;
      for (let i = 0; i < width; i += 1) counts.sum[gaussian * width + i] = (counts.sum[gaussian * width + i] ?? 0) + share * (frame[stream * width + i] ?? 0);
    }
  });
  return counts;
}

/** The library's own floor of variances. */
const floored = (variance: number | undefined): number => Math.max(variance ?? 0, 1e-4);

/** Each row of the map is a weighted least-squares problem over the Gaussians; the prior counts every mean as seen a little, unmoved. */
function solveStream({ weight, sum }: Counts, means: Codebooks, variances: Codebooks, stream: number, prior: number): number[][] {
  const { densities, width } = means;
  const each = prior / (SPEECH.length * densities);
  return Array.from({ length: width }, (_, i) => {
    const left = Array.from({ length: width + 1 }, () => new Float64Array(width + 1));
    const right = new Float64Array(width + 1);
    const mean = new Float64Array(width + 1);
    for (const codebook of SPEECH) for (let density = 0; density < densities; density += 1) {
      const at = place(means, codebook, stream, density);
      const gaussian = codebook * densities + density;
      const precision = 1 / floored(variances.values[at + i]);
      for (let j = 0; j < width; j += 1) mean[j] = means.values[at + j] ?? 0;
      mean[width] = 1;
      const seen = (weight[gaussian] ?? 0) + each;
      const target = (sum[gaussian * width + i] ?? 0) + each * (mean[i] ?? 0);
      for (let j = 0; j <= width; j += 1) {
        const row = left[j] as Float64Array;
        const factor = precision * (mean[j] ?? 0);
        right[j] = (right[j] ?? 0) + factor * target;
        for (let k = 0; k <= width; k += 1) row[k] = (row[k] ?? 0) + factor * seen * (mean[k] ?? 0);
      }
    }
    return solve(left, right);
  });
}

/** Solves a small symmetric positive definite system by Gaussian elimination with pivoting. */
export function solve(left: Float64Array[], right: Float64Array): number[] {
  const n = right.length;
  const at = (row: number, column: number): number => left[row]?.[column] ?? 0;
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < n; row += 1) if (Math.abs(at(row, column)) > Math.abs(at(pivot, column))) pivot = row;
    if (Math.abs(at(pivot, column)) < 1e-12) throw new Error('Too little speech for a voice profile: read more sentences.');
    [left[column], left[pivot]] = [left[pivot] as Float64Array, left[column] as Float64Array];
    [right[column], right[pivot]] = [right[pivot] ?? 0, right[column] ?? 0];
    for (let row = column + 1; row < n; row += 1) {
      const factor = at(row, column) / at(column, column);
      for (let k = column; k < n; k += 1) (left[row] as Float64Array)[k] = at(row, k) - factor * at(column, k);
      right[row] = (right[row] ?? 0) - factor * (right[column] ?? 0);
    }
  }
  const solution = new Array<number>(n).fill(0);
  for (let row = n - 1; row >= 0; row -= 1) {
    let sum = right[row] ?? 0;
    for (let k = row + 1; k < n; k += 1) sum -= at(row, k) * (solution[k] ?? 0);
    solution[row] = sum / at(row, row);
  }
  return solution;
}

/** Number of cepstral coefficients, and the lifter of the model's feature settings (models: feat_params.json). */
const CEPSTRA = 13;
const LIFTER = 22;

/** The model's liftered cepstra per frame from log mel spectra. */
function cepstraOf(logMel: Float32Array, bands: number): Float64Array[] {
  return Array.from({ length: Math.floor(logMel.length / bands) }, (_, t) => Float64Array.from({ length: CEPSTRA }, (_unused, i) => {
    let sum = 0;
    for (let j = 0; j < bands; j += 1) sum += (logMel[t * bands + j] ?? 0) * Math.cos((Math.PI * i * (j + 0.5)) / bands);
    return sum * Math.sqrt((i === 0 ? 1 : 2) / bands) * (1 + (LIFTER / 2) * Math.sin((Math.PI * i) / LIFTER));
  }));
}

const meanOf = (cepstra: readonly Float64Array[]): Float64Array => Float64Array.from({ length: CEPSTRA }, (_, i) => cepstra.reduce((sum, frame) => sum + (frame[i] ?? 0), 0) / Math.max(1, cepstra.length));

/** Mean cepstrum of some audio from its log mel spectra: what microphone, room and voice have in common in all its frames. */
export const meanCepstrum = (logMel: Float32Array, bands: number): Float64Array => meanOf(cepstraOf(logMel, bands));

/**
 * The model's 39 features per frame from log mel spectra: liftered cepstra less their mean over the utterance, differences over
 * two frames on either side, and differences of those (the Sphinx "1s_c_d_dd" features).
 */
export function featuresOf(logMel: Float32Array, bands: number): Float64Array[] {
  const cepstra = cepstraOf(logMel, bands);
  const frames = cepstra.length;
  const mean = meanOf(cepstra);
  const at = (t: number, i: number): number => (cepstra[Math.min(frames - 1, Math.max(0, t))]?.[i] ?? 0) - (mean[i] ?? 0);
  const difference = (t: number, i: number): number => at(t + 2, i) - at(t - 2, i);
  return cepstra.map((_, t) => Float64Array.from({ length: 3 * CEPSTRA }, (_unused, k) => {
    const i = k % CEPSTRA;
    return k < CEPSTRA ? at(t, i) : k < 2 * CEPSTRA ? difference(t, i) : difference(t + 1, i) - difference(t - 1, i);
  }));
}
