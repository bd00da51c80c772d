/// <reference types="audioworklet" />
/** Runs on the audio thread: gathers 128-sample blocks into chunks of 20 ms or more and hands them over. */
const CHUNK = 1024;

class Tap extends AudioWorkletProcessor {
  private chunk = new Float32Array(CHUNK);
  private filled = 0;

  process(inputs: Float32Array[][]): boolean {
    const channels = inputs[0] ?? [];
    const length = channels[0]?.length ?? 0;
    for (let i = 0; i < length; i += 1) {
      let sum = 0;
      for (const channel of channels) sum += channel[i] ?? 0;
      this.chunk[this.filled] = sum / channels.length;
      this.filled += 1;
      if (this.filled === CHUNK) {
        this.port.postMessage(this.chunk, [this.chunk.buffer]);
        this.chunk = new Float32Array(CHUNK);
        this.filled = 0;
      }
    }
    return true;
  }
}

registerProcessor('tap', Tap);
