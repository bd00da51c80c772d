/** A failure as a person meets it: what happened, then what to do. The parts to the left word their own; those of the screens are here. */
export interface Message { readonly what: string; readonly todo: string }

export const MESSAGES = {
  workerStopped: { what: 'Hearing stopped and was started again.', todo: 'Nothing recorded is lost; say the last finding again if it does not show.' },
  workerGaveUp: { what: 'Hearing stopped several times and stays off.', todo: 'Everything so far is recorded. Press “Turn the microphone on” to try again, or type.' },
  modelMissing: { what: 'The speech model could not be loaded.', todo: 'Run “npm start” again to fetch it. Meanwhile the typed line does everything that speech does.' },
  demonstrationMissing: { what: 'The demonstration recording could not be played.', todo: 'Reload the page. If that fails, run “npm start” again.' },
} as const satisfies Record<string, Message>;

const isMessage = (value: unknown): value is Message => typeof value === 'object' && value !== null && 'what' in value && 'todo' in value;

/** An error, or its text, as a message: its first sentence says what happened, the rest what to do. */
export function messageOf(error: unknown): Message {
  if (isMessage(error)) return error;
  const text = error instanceof Error ? error.message : String(error);
  const end = text.search(/[.:!?] /);
  return end < 0 ? { what: text, todo: '' } : { what: text.slice(0, end + 1), todo: text.slice(end + 2) };
}

/** On every screen that shows a localisation or a caution. */
export const CAUTION_LINE = 'Supports the examiner, never diagnoses. Follow your local protocol and senior advice.';
