import { linkGrammars } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { createParser, type Context, type Statement } from '../../src/parser';
import type { Finding, Side } from '../../src/vocabulary';

export const sources = grammarSources();
export const rules = linkGrammars(sources.grammars);
export const parse = createParser(rules);

const resultText = ({ result }: Finding): string => {
  switch (result.kind) {
    case 'level': return result.level;
    case 'grade': return `${result.grade}${result.to ? ` to ${result.to}` : ''}`;
    case 'quantity': return `${result.quantity.comparator ?? ''}${result.quantity.value}${result.quantity.to === undefined ? '' : ` to ${result.quantity.to}`} ${result.quantity.unit}`;
    case 'not testable': return `not testable: ${result.reason}`;
  }
};
/** "R power@APB = 3 [painful]" */
export const short = (finding: Finding): string =>
  `${finding.side === 'left' ? 'L' : 'R'} ${finding.sign}@${finding.site}${finding.upTo ? ` to ${finding.upTo}` : ''} = ${resultText(finding)}${finding.at ? ` at ${finding.at.value} ${finding.at.unit}` : ''}${finding.qualifiers ? ` [${finding.qualifiers.join(', ')}]` : ''}`;

/** Statements in short: findings as above, anything else by its type. */
export function shortStatements(statements: readonly Statement[]): string[] {
  return statements.flatMap((statement) => {
    switch (statement.type) {
      case 'findings': return statement.findings.map(short);
      case 'side': return [`side ${statement.side}`];
      case 'order': return [`order ${Object.values(statement.order).join(' ')}`];
      case 'not testable': return [`not testable ${statement.side} ${statement.items.join(' ')}: ${statement.reason}`];
      case 'gap': return [`gap ${statement.gap}`];
      case 'unparsed': return ['unparsed'];
    }
  });
}

export const read = (text: string, context: Partial<Context> = {}): string[] => shortStatements(parse(text, { findings: [], ...context }));
export const on = (currentSide: Side): Partial<Context> => ({ currentSide });
