import { USAGE, UsageError, readArguments } from './arguments';
import { examine } from './examine';
import { InputError, readSource, readText } from './input';
import { localiseText } from './localisation';
import { toOutput } from './output';
import { vocabulary } from './vocabulary';

export interface Outcome { readonly code: 0 | 1 | 2; readonly out: string; readonly err: string }

const print = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/**
 * The headless command as a function. All files are read before anything is heard, so bad input is told at once.
 * @param folder what relative file names start from
 */
export async function run(argv: readonly string[], folder: string): Promise<Outcome> {
  try {
    const wish = readArguments(argv);
    if (wish.kind === 'help') return { code: 0, out: USAGE, err: '' };
    if (wish.kind === 'vocabulary') return { code: 0, out: print(vocabulary()), err: '' };
    if (wish.kind === 'localise') return { code: 0, out: print(localiseText(readText(wish.file, folder), wish.file)), err: '' };
    const examined = await examine(wish.files.map((file) => readSource(file, folder)), wish.protocol, wish.engine);
    return { code: 0, out: print(toOutput(examined)), err: examined.notes.map((note) => `${note}\n`).join('') };
  } catch (error) {
    if (error instanceof UsageError) return { code: 2, out: '', err: `${error.message}\n\n${USAGE}` };
    if (error instanceof InputError) return { code: 1, out: '', err: `${error.message}\n` };
    // No model installed, a grammar that does not fit together: told without a stack, the message says what to do.
    return { code: 1, out: '', err: `Nothing was read: ${error instanceof Error ? error.message : String(error)}\n` };
  }
}
