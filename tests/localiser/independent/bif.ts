import type { ExportedNetwork } from './network';

const states = (n: number): string => Array.from({ length: n }, (_, at) => `s${at}`).join(', ');

/** Every choice of one value for each parent, the last one fastest. */
const choices = (sizes: readonly number[]): number[][] => sizes.reduce<number[][]>((all, size) => all.flatMap(one => Array.from({ length: size }, (_, at) => [...one, at])), [[]]);

/**
 * The network in the Bayesian Interchange Format (BIF 0.15, Cozman, CMU 1998 [from memory]), an open format that general-purpose libraries read.
 * States are named s0, s1 …; what was seen, and what is asked, stand in a comment.
 */
export function toBif({ factors, seen, ask }: ExportedNetwork): string {
  const size = new Map(factors.map(({ variable, values }) => [variable, values]));
  return [
    `// Ask for ${ask}, having seen in state s0: ${seen.join(' ')}`,
    'network hand {', '}',
    ...factors.map(({ variable, values }) => `variable ${variable} {\n  type discrete [ ${values} ] { ${states(values)} };\n}`),
    ...factors.map(({ variable, parents, table }) => (parents.length === 0
      ? `probability ( ${variable} ) {\n  table ${table.map(([p]) => p).join(', ')};\n}`
      : `probability ( ${variable} | ${parents.join(', ')} ) {\n${choices(parents.map(parent => size.get(parent)!)).map((choice, column) => `  (${choice.map(at => `s${at}`).join(', ')}) ${table.map(row => row[column]).join(', ')};`).join('\n')}\n}`)),
  ].join('\n') + '\n';
}
