/** Every failure a person can meet, in one place: what happened, then what to do. A finding that could not be stored was never shown as filed. */
export interface Message { readonly what: string; readonly todo: string }

export const MESSAGES = {
  noMicrophone: { what: 'No microphone was found.', todo: 'Plug one in and press “Turn the microphone on”. Meanwhile the typed line does everything that speech does.' },
  refused: { what: 'The browser may not use the microphone.', todo: 'Allow it in the address bar (site settings, microphone) and press “Turn the microphone on”. Meanwhile the typed line does everything that speech does.' },
  busy: { what: 'The microphone could not be opened; another program may be holding it.', todo: 'Close the other program and press “Turn the microphone on”.' },
  unplugged: { what: 'The microphone was unplugged.', todo: 'Everything so far is recorded. Plug it in again and press “Turn the microphone on”, or type.' },
  silent: { what: 'The microphone is on, but delivers silence.', todo: 'See whether it is muted, or whether another microphone is chosen in the system.' },
  clipping: { what: 'The sound is too loud and is cut off.', todo: 'Move the microphone away or turn its gain down; cut-off speech is easily misheard.' },
  noSecureContext: { what: 'The browser gives the microphone only to a page from this computer or over https.', todo: 'Open the address that “npm start” printed.' },
  modelMissing: { what: 'The speech model could not be loaded.', todo: 'Run “npm start” again to fetch it. Meanwhile the typed line does everything that speech does.' },
  workerStopped: { what: 'Hearing stopped and was started again.', todo: 'Nothing recorded is lost; say the last finding again if it does not show.' },
  workerGaveUp: { what: 'Hearing stopped several times and stays off.', todo: 'Everything so far is recorded. Reload the page to try again, or type.' },
  notFound: { what: 'There is no such examination on this device.', todo: 'Choose one from the list, or import its file.' },
  demonstrationMissing: { what: 'The demonstration recording could not be played.', todo: 'Reload the page. If it stays away, run “npm start” again.' },
} as const satisfies Record<string, Message>;
export type MessageId = keyof typeof MESSAGES;

const text = (error: unknown): string => (error instanceof Error ? error.message : String(error));
const nameOf = (error: unknown): string => (error instanceof Error || (typeof DOMException !== 'undefined' && error instanceof DOMException) ? error.name : '');

/** The message for what getUserMedia rejects with (W3C Media Capture and Streams, §10.2), or for what the microphone part says itself. */
export function microphoneMessage(error: unknown): Message {
  switch (nameOf(error)) {
    case 'NotAllowedError': case 'SecurityError': return MESSAGES.refused;
    case 'NotFoundError': case 'OverconstrainedError': return MESSAGES.noMicrophone;
    case 'NotReadableError': case 'AbortError': return MESSAGES.busy;
    default: return { what: text(error), todo: MESSAGES.busy.todo };
  }
}

/** On every screen that shows a localisation or a caution. */
export const CAUTION_LINE = 'Supports the examiner, never diagnoses. Follow your local protocol and senior advice.';
