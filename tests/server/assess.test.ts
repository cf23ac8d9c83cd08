import { afterEach, describe, expect, test } from 'vitest';
import { assessment, type Assessment } from '../../models/schema/assessment.ts';
import { makeContext } from '../../server/context.ts';
import { assessStore } from '../../server/services/assessStore.ts';
import { unitNow, unitStoryOf } from '../../server/services/unitNow.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { unitStory } from '../../models/schema/story.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const made: { remove(): void }[] = [];
afterEach(() => made.splice(0).forEach((paths) => paths.remove()));

async function fleetOf(files: Readonly<Record<string, string>>, today = '2024-06-01') {
  const paths = temporaryPaths();
  made.push(paths);
  const report = await takeIn(paths.ownStore, writeFiles(files), { dryRun: false, by: 'test', today });
  expect(report.committed).toBe(true);
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  const store = await context.own();
  return {
    assess: (asOf: string) => assessStore(context, store, asOf),
    story: async (unit: string, asOf: string) => {
      const own = await unitNow(context, store, unit, asOf);
      return own === null ? null : unitStoryOf(context, own);
    },
    close: () => context.close(),
  };
}

/** The lines of a CSV text after the header, changed. */
function reshaped(text: string, change: (lines: string[]) => string[]): string {
  const [header, ...lines] = text.trimEnd().split('\n');
  return `${[header, ...change(lines)].join('\n')}\n`;
}

const withoutModelText = (result: Assessment) => ({ ...result, modelVersion: '' });

describe('assess on own files', () => {
  test('the document has the agreed shape, and says what is not known', async () => {
    const fleet = await fleetOf(ownFleet);
    const result = await fleet.assess('2024-06-01');
    await fleet.close();
    expect(assessment.safeParse(result).error).toBeUndefined();
    expect(result.units.map((unit) => unit.unitNumber)).toEqual([
      'A1',
      'A2',
      'A3',
      'B1',
      'B2',
      'B3',
      'C1',
      'C2',
      'C3',
      'D1',
    ]);
    const unit = (number: string) => result.units.find((entry) => entry.unitNumber === number)!;
    for (const entry of result.units) {
      for (const state of [entry.sludge, entry.chain, entry.phaser])
        if (state !== null) expect(state.low).toBeLessThanOrEqual(state.high);
      expect(entry.failure!.low).toBeLessThanOrEqual(entry.failure!.probability);
      expect(entry.failure!.high).toBeGreaterThanOrEqual(entry.failure!.probability);
    }
    expect(unit('B2').call, 'correlation code on an interference engine').toBe('stop');
    expect(unit('C1').chain, 'a belt is no chain').toBeNull();
    expect(unit('C1').notKnown.chain).toMatch(/not applicable/);
    expect(unit('C1').phaser).toBeNull();
    expect(unit('D1').chain, 'engine not described').toBeNull();
    expect(unit('D1').notKnown.chain).toMatch(/not known/);
    expect(unit('B1').duty.severe).toBe(true);
    expect(unit('A3').duty.severe).toBe(false);
    expect(unit('B3').duty.inferred).toContain('idleShare');
    expect(unit('B1').sludge!.index).toBeGreaterThan(unit('A3').sludge!.index);
  });

  test('as-of in the past uses nothing later: deleting the later records gives the same document', async () => {
    const asOf = '2023-06-01';
    const whole = await fleetOf(ownFleet);
    const before = await whole.assess(asOf);
    await whole.close();
    const cut: Record<string, string> = {};
    for (const [name, text] of Object.entries(ownFleet))
      cut[name] = ['service.csv', 'readings.csv', 'findings.csv', 'codes.csv', 'samples.csv'].includes(name)
        ? reshaped(text, (lines) => lines.filter((line) => line.split(',')[1] <= asOf))
        : text;
    for (const [name, text] of Object.entries(cut)) if (text.trim().split('\n').length < 2) delete cut[name];
    const short = await fleetOf(cut);
    const after = await short.assess(asOf);
    await short.close();
    expect(withoutModelText(after)).toEqual(withoutModelText(before));
  });

  test('the order of rows changes nothing', async () => {
    const plain = await fleetOf(ownFleet);
    const one = await plain.assess('2024-06-01');
    await plain.close();
    const turned: Record<string, string> = {};
    for (const [name, text] of Object.entries(ownFleet))
      turned[name] = reshaped(text, (lines) => [...lines].reverse());
    const reversed = await fleetOf(turned);
    const other = await reversed.assess('2024-06-01');
    await reversed.close();
    expect(withoutModelText(other)).toEqual(withoutModelText(one));
  });

  test('miles instead of kilometres change nothing but the last digits', async () => {
    const plain = await fleetOf(ownFleet);
    const one = await plain.assess('2024-06-01');
    await plain.close();
    const us = {
      ...ownFleet,
      'readings.csv': ownFleet['readings.csv']
        .replace('odometer_km', 'odometer_mi')
        .replace(
          /^([^,\n]+,\d{4}-\d\d-\d\d,)(\d+)/gm,
          (_, lead: string, km: string) => `${lead}${Number(km) / 1.609344}`,
        ),
    };
    const miles = await fleetOf(us);
    const other = await miles.assess('2024-06-01');
    await miles.close();
    one.units.forEach((unit, index) => {
      const twin = other.units[index];
      expect(twin.call).toBe(unit.call);
      expect(twin.oil!.governingLimit).toBe(unit.oil!.governingLimit);
      expect(twin.oil!.dueOn).toBe(unit.oil!.dueOn);
      expect(twin.failure!.probability).toBeCloseTo(unit.failure!.probability, 3);
    });
  });

  test('a unit page has charges, limits, records with file and line', async () => {
    const fleet = await fleetOf(ownFleet);
    const story = await fleet.story('b1', '2024-06-01');
    expect(await fleet.story('no such unit', '2024-06-01')).toBeNull();
    await fleet.close();
    expect(unitStory.safeParse(story).error).toBeUndefined();
    expect(story!.charges.length).toBeGreaterThan(5);
    expect(story!.charges[story!.charges.length - 1].running).toBe(true);
    expect(story!.limits.some((line) => line.limit === story!.assessment.oil!.governingLimit)).toBe(true);
    const link = story!.records.find((record) => record.kind === 'findings');
    expect(link).toMatchObject({ file: 'findings.csv', line: 2 });
    expect(story!.evidence.some((entry) => entry.link?.file === 'samples.csv')).toBe(true);
  });

  test('readings alone, no engines, no services: finite answers that say what is missing', async () => {
    const fleet = await fleetOf({
      'units.csv': 'unit_number\nX1\nX2\n',
      'readings.csv':
        'unit_number,read_on,odometer_km\nX1,2023-01-01,900\nX1,2023-06-01,9000\nX2,2023-02-01,5\n',
    });
    const result = await fleet.assess('2024-01-01');
    await fleet.close();
    expect(assessment.safeParse(result).error).toBeUndefined();
    for (const unit of result.units) {
      expect(unit.oil!.dueOn).toBeNull();
      expect(unit.notKnown['oil.dueOn']).toMatch(/no oil change/);
      expect(unit.failure!.probability).toBeGreaterThan(0);
      expect(unit.failure!.probability).toBeLessThan(1);
      expect(unit.failure!.ownDataShare).toBeLessThan(0.5);
    }
  });

  test('an empty store gives an empty document', async () => {
    const fleet = await fleetOf({ 'sites.csv': 'site,bays\nHere,1\n' });
    expect((await fleet.assess('2024-01-01')).units).toEqual([]);
    await fleet.close();
  });
});
