import { expect, test } from 'vitest';
import type { Figure } from './figure.ts';

type Bench = { run: () => Promise<readonly Figure[]> };

const benches = import.meta.glob<Bench>('./*.bench.ts');
const only = process.env.BENCH ?? '';

for (const [file, load] of Object.entries(benches).filter(([name]) => name.includes(only)))
  test(file, async () => {
    const figures = await (await load()).run();
    for (const { name, figure, unit, target } of figures)
      process.stdout.write(`${name}: ${Number(figure.toPrecision(3))} ${unit} (target ${target})\n`);
    expect(figures.length).toBeGreaterThan(0);
  });
