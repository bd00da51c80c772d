/** Float samples in [-1, 1] to 16-bit PCM: half the room, and more than a voice needs. */
export const toPcm16 = (samples: Float32Array): Int16Array =>
  Int16Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, Number.isFinite(sample) ? sample : 0)) * 32767));

export const fromPcm16 = (pcm: Int16Array): Float32Array => Float32Array.from(pcm, (sample) => sample / 32767);

/** 16-bit PCM as base64, little-endian whatever the machine. */
export function pcm16ToBase64(pcm: Int16Array): string {
  const view = new DataView(new ArrayBuffer(pcm.length * 2));
  pcm.forEach((sample, index) => view.setInt16(index * 2, sample, true));
  const bytes = new Uint8Array(view.buffer);
  let text = '';
  for (let from = 0; from < bytes.length; from += 0x8000) text += String.fromCharCode(...bytes.subarray(from, from + 0x8000));
  return btoa(text);
}

/** Back from base64. An odd last byte is dropped: it is half a sample. */
export function base64ToPcm16(base64: string): Int16Array {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  return Int16Array.from({ length: bytes.length >> 1 }, (_, index) => view.getInt16(index * 2, true));
}
