import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';

const width = 500;
const ink = '#2a261f';
const soft = '#7a7265';
const band = '#d9d2c4';
const accent = '#1f4e8c';

const short = (cents: number): string => {
  const value = cents / 100;
  if (Math.abs(value) < 1000) return String(Math.round(value));
  return `${Number((value / 1000).toPrecision(3))} k`;
};
const safe = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const write = (x: number, y: number, text: string, anchor = 'middle'): string =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" font-size="9" fill="${ink}" text-anchor="${anchor}">${safe(text)}</text>`;
const svg = (height: number, parts: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${parts.join('')}</svg>`;

/** Round steps from 0 to at least `most`: 1, 2 or 5 times a power of ten, about four of them. */
export function ticks(most: number): readonly number[] {
  if (!(most > 0)) return [0, 1];
  const raw = most / 4;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= raw)!;
  return Array.from({ length: Math.ceil(most / step - 1e-9) + 1 }, (_, i) => i * step);
}

/** Money spent against failures avoided: range as a band, expectation as a line, this amount as a mark. */
export function frontierSvg({ levels, amountCents }: BudgetDocument): string {
  const points = levels.toSorted((a, b) => a.spentCents - b.spentCents);
  const xTicks = ticks(Math.max(...points.map(({ spentCents }) => spentCents)));
  const yTicks = ticks(Math.max(1, ...points.map(({ failuresAvoided }) => failuresAvoided.high)));
  const x = (cents: number): number => 40 + (440 * cents) / xTicks.at(-1)!;
  const y = (count: number): number => 150 - (140 * count) / yTicks.at(-1)!;
  const path = (pick: (of: (typeof points)[number]['failuresAvoided']) => number): string[] =>
    points.map((p) => `${x(p.spentCents).toFixed(1)},${y(pick(p.failuresAvoided)).toFixed(1)}`);
  const own = levels.find((level) => level.budgetCents === amountCents);
  return svg(185, [
    ...yTicks.map(
      (tick) =>
        `<line x1="40" x2="480" y1="${y(tick)}" y2="${y(tick)}" stroke="${band}" stroke-width="0.5"/>${write(34, y(tick) + 3, String(tick), 'end')}`,
    ),
    `<polygon fill="${band}" points="${[...path((f) => f.high), ...path((f) => f.low).reverse()].join(' ')}"/>`,
    `<polyline fill="none" stroke="${ink}" stroke-width="1.5" points="${path((f) => f.mid).join(' ')}"/>`,
    ...xTicks.map((tick) => write(x(tick), 164, short(tick))),
    write(260, 180, 'money spent on planned work; failures avoided upwards, range of 8 in 10 futures shaded'),
    own === undefined
      ? ''
      : `<circle cx="${x(own.spentCents)}" cy="${y(own.failuresAvoided.mid)}" r="4" fill="${accent}"/>`,
  ]);
}

/** Cost of failures by quarter when all is run, and of failures and planned work under the plan. */
export function spendSvg({ byMonth }: BudgetDocument): string {
  const step = byMonth.length > 12 ? 3 : 1;
  const groups = Array.from({ length: Math.ceil(byMonth.length / step) }, (_, i) => {
    const part = byMonth.slice(i * step, (i + 1) * step);
    const sum = (pick: (month: (typeof part)[number]) => number): number =>
      part.reduce((total, month) => total + pick(month), 0);
    return {
      name: step === 1 ? String(i + 1) : `${i * step + 1}–${i * step + part.length}`,
      run: sum((month) => month.unplannedWithoutCents),
      failures: sum((month) => month.unplannedCents),
      planned: sum((month) => month.plannedCents),
    };
  });
  const scale = ticks(
    Math.max(...groups.map((group) => Math.max(group.run, group.failures + group.planned))),
  );
  const y = (cents: number): number => 150 - (140 * cents) / scale.at(-1)!;
  const slot = 440 / groups.length;
  const bar = (x: number, from: number, to: number, fill: string): string =>
    `<rect x="${x.toFixed(1)}" y="${y(to).toFixed(1)}" width="${(slot * 0.36).toFixed(1)}" height="${Math.max(0, y(from) - y(to)).toFixed(1)}" fill="${fill}" stroke="${ink}" stroke-width="0.6"/>`;
  return svg(185, [
    ...scale.map(
      (tick) =>
        `<line x1="40" x2="480" y1="${y(tick)}" y2="${y(tick)}" stroke="${band}" stroke-width="0.5"/>${write(34, y(tick) + 3, short(tick), 'end')}`,
    ),
    ...groups.flatMap((group, i) => {
      const x = 40 + slot * i + slot * 0.1;
      return [
        bar(x, 0, group.run, '#ffffff'),
        bar(x + slot * 0.4, 0, group.failures, '#b8b0a0'),
        bar(x + slot * 0.4, group.failures, group.failures + group.planned, ink),
        write(40 + slot * (i + 0.5), 164, group.name),
      ];
    }),
    write(
      260,
      180,
      'months; white: failures when all is run; grey: failures under the plan; black: planned work',
    ),
  ]);
}

/** What the expected saving hangs on, a bar a cause. */
export function tornadoSvg({ tornado, chosen }: BudgetDocument): string {
  const expected = chosen.reduce((sum, line) => sum + line.netCents, 0);
  const ends = tornado.flatMap((bar) => [bar.atLowCents, bar.atHighCents]);
  const [low, high] = [Math.min(0, ...ends), Math.max(1, expected, ...ends)];
  const x = (cents: number): number => 170 + (290 * (cents - low)) / (high - low);
  const height = 24 * tornado.length;
  return svg(height + 30, [
    ...tornado.flatMap((bar, i) => {
      const [a, b] = [x(bar.atLowCents), x(bar.atHighCents)].sort((one, two) => one - two);
      return [
        write(162, 24 * i + 15, `${bar.words} ± ${Math.round(100 * bar.swing)} %`, 'end'),
        `<rect x="${a.toFixed(1)}" y="${24 * i + 4}" width="${Math.max(0.5, b - a).toFixed(1)}" height="15" fill="${band}" stroke="${ink}" stroke-width="0.6"/>`,
      ];
    }),
    `<line x1="${x(expected)}" x2="${x(expected)}" y1="0" y2="${height}" stroke="${accent}" stroke-width="1.5"/>`,
    `<line x1="170" x2="460" y1="${height}" y2="${height}" stroke="${soft}" stroke-width="0.5"/>`,
    ...ticks(high)
      .filter((tick) => tick <= high)
      .map((tick) => write(x(tick), height + 12, short(tick))),
    write(315, height + 25, 'expected saving'),
  ]);
}
