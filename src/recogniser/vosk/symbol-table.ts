/**
 * Reads a model's word list from its own graph: either the text symbol table beside it (words.txt)
 * or the one inside the language model's finite-state transducer (Gr.fst, HCLG.fst).
 *
 * Binary layout, little-endian, as OpenFst writes it (openfst.org, fst.cc `FstHeader::Write` and
 * symbol-table.cc `SymbolTableImpl::Write`; from memory, held by a file that an independent library wrote):
 * header = int32 magic, string FST type, string arc type, int32 version, int32 flags, uint64 properties,
 * int64 start, int64 states, int64 arcs; then the input and the output symbol table, if the flags say so.
 * Table = int32 magic, string name, int64 next key, int64 size, then size times (string, int64 key).
 * A string is an int32 length and its bytes in UTF-8.
 */
const FST_MAGIC = 2125659606;
const TABLE_MAGIC = 2125658996;
const HAS_INPUT_SYMBOLS = 1;
const HAS_OUTPUT_SYMBOLS = 2;

export class SymbolTableError extends Error {
  override readonly name = 'SymbolTableError';
}

class Reader {
  private at = 0;
  private readonly view: DataView;
  constructor(private readonly bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }
  private take(length: number): number {
    if (length < 0 || this.at + length > this.bytes.length) throw new SymbolTableError(`The file ends in the middle (byte ${this.at} of ${this.bytes.length}).`);
    const from = this.at;
    this.at += length;
    return from;
  }
  int32(): number { return this.view.getInt32(this.take(4), true); }
  int64(): number { return Number(this.view.getBigInt64(this.take(8), true)); }
  skip(length: number): void { this.take(length); }
  text(): string {
    const length = this.int32();
    const from = this.take(length);
    return new TextDecoder().decode(this.bytes.subarray(from, from + length));
  }
}

function readTable(reader: Reader): string[] {
  if (reader.int32() !== TABLE_MAGIC) throw new SymbolTableError('The symbol table does not begin with the mark of one.');
  reader.text();
  reader.int64();
  const size = reader.int64();
  const symbols: string[] = [];
  for (let n = 0; n < size; n += 1) {
    symbols.push(reader.text());
    reader.int64();
  }
  return symbols;
}

/**
 * The words of an OpenFst binary: its output symbols, else its input symbols, in the file's order.
 * @throws SymbolTableError if the bytes are no transducer, are cut off, or carry no symbols
 */
export function readFstSymbols(bytes: Uint8Array): string[] {
  const reader = new Reader(bytes);
  if (bytes.length < 4 || reader.int32() !== FST_MAGIC) throw new SymbolTableError('The file is not a finite-state transducer in OpenFst form.');
  reader.text();
  reader.text();
  reader.skip(4);
  const flags = reader.int32();
  reader.skip(32);
  const input = flags & HAS_INPUT_SYMBOLS ? readTable(reader) : undefined;
  const output = flags & HAS_OUTPUT_SYMBOLS ? readTable(reader) : undefined;
  const symbols = output ?? input;
  if (!symbols) throw new SymbolTableError('The transducer carries no symbol table.');
  return symbols;
}

/** The symbols of a text table: a symbol and its number on each line. */
export function readTextSymbols(text: string): string[] {
  const symbols: string[] = [];
  text.split(/\r?\n/).forEach((line, index) => {
    if (!line.trim()) return;
    const [symbol, key, ...rest] = line.trim().split(/\s+/);
    if (!symbol || !key || rest.length || !/^\d+$/.test(key)) throw new SymbolTableError(`Line ${index + 1} of the symbol table is not a word and its number: "${line}".`);
    symbols.push(symbol);
  });
  return symbols;
}

/** Symbols that are no words: silence, unknown, sentence marks, disambiguation (Kaldi's customs). */
const isWord = (symbol: string): boolean => /^[\p{L}\p{N}][\p{L}\p{N}'.-]*$|^'[\p{L}]/u.test(symbol);

const GRAPH_FILES = ['graph/words.txt', 'graph/Gr.fst', 'graph/HCLG.fst'] as const;

/**
 * The vocabulary of a model, lower case, from its own graph files.
 * @param files the model's files by their path inside it ("graph/Gr.fst")
 * @throws SymbolTableError naming the file at fault
 */
export function readVocabulary(files: ReadonlyMap<string, Uint8Array>): Set<string> {
  for (const name of GRAPH_FILES) {
    const bytes = files.get(name);
    if (!bytes) continue;
    try {
      const symbols = name.endsWith('.txt') ? readTextSymbols(new TextDecoder().decode(bytes)) : readFstSymbols(bytes);
      const words = new Set(symbols.filter(isWord).map((word) => word.toLowerCase()));
      if (!words.size) throw new SymbolTableError('There is no word in it.');
      return words;
    } catch (error) {
      throw new SymbolTableError(`${name}: ${(error as Error).message}`);
    }
  }
  throw new SymbolTableError(`None of ${GRAPH_FILES.join(', ')} is there, so the model's words cannot be read.`);
}
