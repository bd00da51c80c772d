import { PROTOCOLS } from '../examination';
import { ENGINES } from '../recogniser/vosk/choose-engine';

/** The best engine that was measured here, or one of them by name; the second one's model has to be installed first. */
const ENGINE_CHOICES = ['automatic', ...ENGINES];

export type Wish =
  | { readonly kind: 'examine'; readonly protocol: string; readonly engine: string; readonly files: readonly string[] }
  | { readonly kind: 'localise'; readonly file: string }
  | { readonly kind: 'vocabulary' } | { readonly kind: 'help' };

export const USAGE = `Usage: npm run -s headless -- [--protocol NAME] [--engine NAME] FILE...
       npm run -s headless -- --findings FILE.json
       npm run -s headless -- --vocabulary

Reads recordings (.wav) and notes (.txt, one utterance a line), in this order, as one hand examination,
and prints one JSON object (its schema: src/headless/output.schema.json).

  --protocol NAME  ${Object.keys(PROTOCOLS).join(', ')} (default: complete)
  --engine NAME    ${ENGINE_CHOICES.join(', ')} (default: automatic, the best that was measured); only recordings need it
  --findings FILE  reads coded findings (src/headless/findings.schema.json) and prints where they put the lesion
                   (the "localisation" of the output), without an examination around them
  --vocabulary     prints every id that the output may hold, and that --findings may
  --help           prints this

Exit codes: 0 read, 1 bad input, 2 wrong use.
`;

/** Wrong use of the command: exit code 2. */
export class UsageError extends Error { override readonly name = 'UsageError'; }

function value(name: string, inline: string | undefined, rest: string[], allowed: readonly string[]): string {
  const given = inline ?? rest.shift();
  if (given === undefined || given.startsWith('--')) throw new UsageError(`${name} needs a name: ${allowed.join(', ')}.`);
  if (!allowed.includes(given)) throw new UsageError(`Unknown ${name.slice(2)} "${given}". Known: ${allowed.join(', ')}.`);
  return given;
}

function fileOf(name: string, inline: string | undefined, rest: string[]): string {
  const given = inline ?? rest.shift();
  if (given === undefined || given === '' || given.startsWith('--')) throw new UsageError(`${name} needs a file.`);
  return given;
}

/** Reads the command line. Everything after "--" is a file. Throws a UsageError that says what to do. */
export function readArguments(argv: readonly string[]): Wish {
  const rest = [...argv];
  const files: string[] = [];
  let protocol = 'complete';
  let engine = 'automatic';
  let wish: Wish | undefined;
  while (rest.length) {
    const next = rest.shift() as string;
    if (next === '--') { files.push(...rest.splice(0)); break; }
    const [name, inline] = next.startsWith('--') && next.includes('=') ? [next.slice(0, next.indexOf('=')), next.slice(next.indexOf('=') + 1)] : [next, undefined];
    if (name === '--protocol') protocol = value(name, inline, rest, Object.keys(PROTOCOLS));
    else if (name === '--engine') engine = value(name, inline, rest, ENGINE_CHOICES);
    else if (name === '--findings') wish ??= { kind: 'localise', file: fileOf(name, inline, rest) };
    else if (name === '--vocabulary') wish ??= { kind: 'vocabulary' };
    else if (name === '--help' || name === '-h') wish = { kind: 'help' };
    else if (name.startsWith('-') && name !== '-') throw new UsageError(`Unknown option ${name}.`);
    else files.push(next);
  }
  if (wish) return wish;
  if (files.length === 0) throw new UsageError('Name at least one .wav or .txt file.');
  return { kind: 'examine', protocol, engine, files };
}
