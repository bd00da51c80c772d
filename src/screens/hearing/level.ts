/** What the level meter says, in words and as a bar, from the recogniser's level events. */
export interface Level { readonly rms: number; readonly peak: number; readonly clipped: boolean }

export type HearingState = 'off' | 'starting' | 'listening' | 'held' | 'reading' | 'restarting' | 'failed';

export interface LevelView {
  /** One or two words, readable from across the bay. */
  readonly word: string;
  /** What to do about it, if anything. */
  readonly hint?: string;
  /** 0 to 1 along the bar: -60 to 0 dB below full scale. */
  readonly fill: number;
  readonly shape: 'wave' | 'pause' | 'cross' | 'peak' | 'ring';
}

/** Below this peak for a while, nothing is connected: even a quiet room makes a microphone move more (a choice; muted inputs deliver exact zeros). */
export const SILENT_PEAK = 0.0005;
export const SILENT_AFTER_S = 4;
/** A clipped frame is shown this long, or nobody would see it. */
export const CLIPPED_SHOWN_S = 1.5;

export const decibels = (amplitude: number): number => (amplitude > 0 ? 20 * Math.log10(amplitude) : -Infinity);

/** Words and bar for the meter. `sinceSignalS` and `sinceClippedS` are seconds since the input last moved, and last clipped. */
export function levelView(state: HearingState, level: Level | null, sinceSignalS: number, sinceClippedS: number): LevelView {
  const fill = level ? Math.min(1, Math.max(0, (decibels(level.rms) + 60) / 60)) : 0;
  switch (state) {
    case 'off': return { word: 'Not listening', hint: 'Turn the microphone on, or type.', fill: 0, shape: 'ring' };
    case 'starting': return { word: 'Getting ready', fill: 0, shape: 'ring' };
    case 'restarting': return { word: 'Restarting', hint: 'Hearing stopped and is being restarted. Nothing recorded is lost.', fill: 0, shape: 'ring' };
    case 'failed': return { word: 'Cannot hear', hint: 'Type instead, or try the microphone again.', fill: 0, shape: 'cross' };
    case 'reading': return { word: 'Reading aloud', hint: 'It does not listen until it has finished.', fill: 0, shape: 'pause' };
    case 'held': return { word: 'Held', hint: 'Say “carry on”, or press Space.', fill, shape: 'pause' };
    case 'listening':
      if (sinceSignalS > SILENT_AFTER_S) return { word: 'No signal', hint: 'The microphone is silent: is it muted, or the wrong one?', fill, shape: 'cross' };
      if (sinceClippedS < CLIPPED_SHOWN_S) return { word: 'Too loud', hint: 'The sound is cut off: move the microphone away, or turn its gain down.', fill, shape: 'peak' };
      return { word: 'Listening', fill, shape: 'wave' };
  }
}
