/** The numbers of a model by name; `data` is row after row. */
export type Weights = ReadonlyMap<string, { readonly shape: readonly number[]; readonly data: Float32Array }>;

/** IEEE 754 half precision to a number. */
function half(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 31;
  const fraction = bits & 1023;
  if (exponent === 31) return fraction ? NaN : sign * Infinity;
  return exponent ? sign * 2 ** (exponent - 15) * (1 + fraction / 1024) : sign * 2 ** -14 * (fraction / 1024);
}
const HALVES = Float32Array.from({ length: 0x10000 }, (_, bits) => half(bits));

/**
 * Reads the weights of a CTranslate2 model file (binary version 6: github.com/OpenNMT/CTranslate2, MIT); numbers of other kinds
 * than float32 and float16 are settings and left out.
 * @throws when the file ends before it should or is of another version
 */
export function readWeights(bytes: Uint8Array): Weights {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const byte = (): number => view.getUint8(at++);
  const integer = (): number => { at += 4; return view.getUint32(at - 4, true); };
  const text = (): string => {
    const length = view.getUint16(at, true);
    at += 2 + length;
    return new TextDecoder().decode(bytes.subarray(at - length, at - 1));
  };
  const version = integer();
  if (version !== 6) throw new Error(`The model file is of version ${version}; only version 6 can be read.`);
  text(); // what kind of network
  integer(); // its revision
  const weights = new Map<string, { shape: number[]; data: Float32Array }>();
  for (let left = integer(); left > 0; left -= 1) {
    const name = text();
    const shape = Array.from({ length: byte() }, integer);
    const kind = byte();
    const size = integer();
    if (kind === 0) weights.set(name, { shape, data: new Float32Array(Uint8Array.from(bytes.subarray(at, at + size)).buffer) });
    else if (kind === 4) weights.set(name, { shape, data: Float32Array.from({ length: size / 2 }, (_, i) => HALVES[view.getUint16(at + 2 * i, true)] ?? NaN) });
    at += size;
  }
  return weights;
}
