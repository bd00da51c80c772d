/** A small line chart as SVG: axes with labels and units, each line with its own dash and marker, named beside its end. */
export interface Line { readonly name: string; readonly points: readonly (readonly [x: number, y: number])[] }
export interface Panel { readonly title: string; readonly x: string; readonly y: string; readonly lines: readonly Line[] }

const WIDTH = 460, HEIGHT = 300, LEFT = 58, RIGHT = 118, TOP = 34, BOTTOM = 48;
const DASHES = ['', '7 4', '2 4'];
const MARKERS: readonly ((x: number, y: number) => string)[] = [
  (x, y) => `<circle cx="${x}" cy="${y}" r="3.5"/>`, (x, y) => `<rect x="${x - 3}" y="${y - 3}" width="6" height="6"/>`, (x, y) => `<path d="M${x} ${y - 4}l4 7h-8z"/>`,
];
const round = (value: number) => Math.round(value * 10) / 10;

/** A step of 1, 2 or 5 times a power of ten that gives about five ticks. */
function ticks(most: number): readonly number[] {
  const rough = most / 5, power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map(factor => factor * power).find(candidate => candidate >= rough)!;
  return Array.from({ length: Math.ceil(most / step) + 1 }, (_, at) => Math.round(at * step * 1e6) / 1e6);
}

function panelOf({ title, x, y, lines }: Panel, offset: number): string {
  const all = lines.flatMap(({ points }) => points);
  const xs = ticks(Math.max(...all.map(([at]) => at))), ys = ticks(Math.max(...all.map(([, at]) => at)));
  const px = (value: number) => round(LEFT + (value / xs.at(-1)!) * (WIDTH - LEFT - RIGHT)), py = (value: number) => round(HEIGHT - BOTTOM - (value / ys.at(-1)!) * (HEIGHT - TOP - BOTTOM));
  // Names stand at the lines' ends, pushed apart where they would meet.
  const ends = lines.map(({ points }, at) => ({ at, y: py(points.at(-1)![1]) })).sort((a, b) => a.y - b.y);
  ends.forEach((end, rank) => { const above = ends[rank - 1]; if (above && end.y - above.y < 15) end.y = above.y + 15; });
  return `<g transform="translate(${offset} 0)">
<text x="${LEFT}" y="18" font-weight="bold">${title}</text>
${ys.map(value => `<path d="M${LEFT} ${py(value)}H${WIDTH - RIGHT}" stroke="#ccc"/><text x="${LEFT - 6}" y="${py(value) + 4}" text-anchor="end">${value}</text>`).join('')}
${xs.map(value => `<path d="M${px(value)} ${HEIGHT - BOTTOM}v4" stroke="#333"/><text x="${px(value)}" y="${HEIGHT - BOTTOM + 17}" text-anchor="middle">${value}</text>`).join('')}
<path d="M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${WIDTH - RIGHT}" fill="none" stroke="#333"/>
<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${HEIGHT - 10}" text-anchor="middle">${x}</text>
<text transform="translate(14 ${(TOP + HEIGHT - BOTTOM) / 2}) rotate(-90)" text-anchor="middle">${y}</text>
${lines.map(({ points }, at) => `<path d="M${points.map(([a, b]) => `${px(a)} ${py(b)}`).join('L')}" fill="none" stroke="#222" stroke-width="1.6"${DASHES[at % 3] ? ` stroke-dasharray="${DASHES[at % 3]}"` : ''}/>${points.map(([a, b]) => MARKERS[at % 3]!(px(a), py(b))).join('')}`).join('\n')}
${ends.map(({ at, y: height }) => `<text x="${WIDTH - RIGHT + 8}" y="${height + 4}">${lines[at]!.name}</text>`).join('')}
</g>`;
}

/** @param caption one line under the panels: what was measured, where and when. */
export const chart = (panels: readonly Panel[], caption: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH * panels.length} ${HEIGHT + 22}" font-family="sans-serif" font-size="12" role="img" aria-label="${panels.map(({ title }) => title).join('; ')}">
<rect width="100%" height="100%" fill="#fff"/>
${panels.map((panel, at) => panelOf(panel, at * WIDTH)).join('\n')}
<text x="${LEFT}" y="${HEIGHT + 14}" fill="#333">${caption}</text>
</svg>
`;
