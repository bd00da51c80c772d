/** Where sound comes in: the microphone or a recording, always as mono 16 kHz. Node imports wav.ts directly: it has no microphone. */
export { MicrophoneError, openMicrophone, troubleOf, type Microphone, type MicrophoneOptions, type MicrophoneTrouble } from './microphone';
export { AudioFileError, decodeWav, RATE, type Recording } from './wav';
export { Resampler, resample } from './resample';
