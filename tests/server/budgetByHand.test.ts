import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { budgetDocument, type BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { runCommand } from '../../server/cli/command.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';
import { twoUnits } from './twoUnits.ts';

const files = writeFiles(twoUnits);
const paths = temporaryPaths();
beforeAll(async () => {
  await takeIn(paths.ownStore, files, { dryRun: false, by: 'test', today: '2024-06-01' });
});
afterAll(() => {
  paths.remove();
  rmSync(dirname(files[0].path), { recursive: true, force: true });
});

async function budget(words: string): Promise<BudgetDocument> {
  const written: string[] = [];
  const write = process.stdout.write.bind(process.stdout);
  Object.assign(process.stdout, { write: (text: unknown) => written.push(String(text)) > 0 });
  try {
    const all = ['budget', ...words.split(' '), '--months', '12', '--as-of', '2024-06-01', '--json'];
    expect(await runCommand(all, () => paths)).toBe(0);
  } finally {
    Object.assign(process.stdout, { write });
  }
  return budgetDocument.parse(JSON.parse(written.join('')));
}

// P1 772.35 and P2 625.80 make 1 398.15; how, stands beside the files
describe('two units worked by hand, through the verb', () => {
  test('both fit into 1 398.15 to the cent, in parts, labour and downtime, and no cost had to be assumed', async () => {
    const result = await budget('--amount 1398.15 --must-do P1,P2');
    const money = Object.fromEntries(
      result.chosen.map(({ unitNumber, costCents, partsCents, labourCents, downtimeCents }) => [
        unitNumber,
        [costCents, partsCents, labourCents, downtimeCents],
      ]),
    );
    expect(money).toEqual({ P1: [77_235, 41_235, 36_000, 20_000], P2: [62_580, 31_080, 31_500, 30_000] });
    expect(result.spentCents).toBe(139_815);
    expect(result.leftAlone).toEqual([]);
    expect(result.filledCosts).toEqual([]);
    expect(result.notes.join()).not.toContain('above the limits');
  });
  test('what must be done is kept at a cent less, and the cent is said', async () => {
    const result = await budget('--amount 1398.14 --must-do P1,P2');
    expect(result.spentCents).toBe(139_815);
    expect(result.notes).toContain('what must be done is 0.01 USD above the limits');
  });
  test('P2 alone takes 625.80; P1 stays as listed', async () => {
    const result = await budget('--amount 3420 --must-do P2 --must-not P1');
    expect(result.chosen.map(({ unitNumber, costCents }) => [unitNumber, costCents])).toEqual([
      ['P2', 62_580],
    ]);
    expect(result.spentCents).toBe(62_580);
    expect(result.leftAlone).toMatchObject([{ unitNumber: 'P1', why: 'listed' }]);
  });
});
