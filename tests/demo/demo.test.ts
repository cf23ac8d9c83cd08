import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { isoFromDay } from '../../models/schema/day.ts';
import { generateDemo, meterSwap } from './generate.ts';
import { endDay } from './groups.ts';
import { leavers, stories } from './stories.ts';

const folder = new URL('../../data/demo/', import.meta.url).pathname;
const demo = generateDemo();
if (process.env['WRITE_DEMO'] === '1')
  for (const [name, text] of Object.entries(demo.files)) writeFileSync(join(folder, name), text);

type Row = Readonly<Record<string, string>>;
const rowsOf = (name: string): readonly Row[] => parse(demo.files[name]!, { columns: true }) as Row[];
const service = rowsOf('service.csv');
const codes = rowsOf('codes.csv');
const findings = rowsOf('findings.csv');
const end = isoFromDay(endDay);

describe('committed files', () => {
  test('are what the simulator writes', () => {
    const names = readdirSync(folder).filter((name) => name.endsWith('.csv'));
    expect(names.sort()).toEqual(Object.keys(demo.files).sort());
    for (const name of names)
      expect(readFileSync(join(folder, name), 'utf8') === demo.files[name], name).toBe(true);
  });

  test('stay moderate in size and hold no NaN', () => {
    const text = Object.values(demo.files).join('');
    expect(text.length).toBeLessThan(4_000_000);
    expect(text).not.toMatch(/NaN|undefined|Infinity|null/);
  });

  test('README names every story and the stories exist', () => {
    const readme = readFileSync(join(folder, 'README.md'), 'utf8');
    for (const story of stories) expect(readme).toContain(`| ${story.unitNumber} | ${story.title} |`);
    const numbers = new Set(rowsOf('units.csv').map((row) => row['unit_number']));
    for (const story of stories) expect(numbers.has(story.unitNumber)).toBe(true);
  });
});

describe('the scenario', () => {
  test('has exactly 120 units, nine of which left, and one number twice', () => {
    const units = rowsOf('units.csv');
    expect(units).toHaveLength(120);
    expect(new Set(units.map((row) => row['unit_number'])).size).toBe(119);
    expect(units.filter((row) => row['unit_number'] === '1103')).toHaveLength(2);
    const retired = units.filter((row) => row['status'] === 'retired');
    expect(retired.map((row) => row['unit_number']).sort()).toEqual(leavers.map((l) => l.unitNumber).sort());
    for (const row of retired) expect(row['disposed_on']! <= end).toBe(true);
  });

  test('has six families of which one lacks its severe interval', () => {
    const engines = rowsOf('engines.csv');
    expect(engines).toHaveLength(6);
    expect(
      engines.filter((row) => row['book_severe_interval_km'] === '').map((row) => row['engine_family']),
    ).toEqual(['Vessimo 20T']);
  });

  test('has 10 to 20 failures in service, some planned renewals, and says so in the files', () => {
    const renewals = demo.truth.units.flatMap((unit) => unit.renewals.filter((r) => r.recorded));
    const failed = renewals.filter((r) => r.outcome === 'failed');
    expect(failed.length).toBeGreaterThanOrEqual(10);
    expect(failed.length).toBeLessThanOrEqual(20);
    expect(renewals.length - failed.length).toBeGreaterThanOrEqual(4);
    const written = service.filter((row) => row['outcome'] === 'failed').length;
    const disposals = leavers.filter((l) => l.reason.startsWith('timing')).length;
    expect(written + disposals).toBeGreaterThanOrEqual(failed.length - 4);
    expect(written + disposals).toBeLessThanOrEqual(failed.length);
  });

  test('has one open stop: every other correlation code or lasting rattle was cleared or ended the unit', () => {
    const stops = [
      ...codes
        .filter((row) => /^P001[6-9]$|^P0524$/.test(row['code']!))
        .map((row) => ({ unit: row['unit_number']!, on: row['seen_on']! })),
      ...findings
        .filter((row) => row['finding'] === 'start_rattle_s' && Number(row['value']) >= 2)
        .map((row) => ({ unit: row['unit_number']!, on: row['found_on']! })),
    ];
    expect(stops.length).toBeGreaterThan(4);
    const left = new Map(rowsOf('units.csv').map((row) => [row['unit_number'], row['disposed_on']]));
    const open = stops.filter(
      (stop) =>
        !(left.get(stop.unit) ?? '') &&
        !findings.some(
          (row) =>
            row['finding'] === 'cleared' && row['unit_number'] === stop.unit && row['found_on']! >= stop.on,
        ),
    );
    expect(new Set(open.map((stop) => stop.unit))).toEqual(new Set(['2202']));
  });

  test('swaps one meter: old and new value stand in the note and the later rows begin low', () => {
    const row = service.find(
      (r) => r['unit_number'] === meterSwap.unitNumber && r['note']!.startsWith('old='),
    );
    expect(row?.['note']).toBe(`old=${demo.swapOldKm} new=${meterSwap.newValueKm}`);
    const later = service.filter(
      (r) =>
        r['unit_number'] === meterSwap.unitNumber &&
        r['serviced_on']! > meterSwap.on &&
        r['odometer_km'] !== '',
    );
    expect(later.length).toBeGreaterThan(3);
    expect(Number(later[0]!['odometer_km'])).toBeLessThan(demo.swapOldKm);
  });

  test('corrects one work order under the same key', () => {
    const seen = new Map<string, Row[]>();
    for (const row of service)
      if (row['record_id'] !== '') seen.set(row['record_id']!, [...(seen.get(row['record_id']!) ?? []), row]);
    const corrections = [...seen.values()].filter(
      (list) => new Set(list.map((row) => row['oil_l'])).size > 1 && list.length === 2,
    );
    const amounts = corrections.filter((list) => list[1]!['note'] === 'amount corrected');
    expect(amounts).toHaveLength(1);
  });

  test('knows nothing after its last day, apart from planted dates', () => {
    for (const row of service) expect((row['recorded_on'] || row['serviced_on'])! <= end).toBe(true);
    for (const row of rowsOf('samples.csv')) expect(row['reported_on']! <= end).toBe(true);
    for (const row of rowsOf('readings.csv').filter((r) => r['read_on'] !== '2062-05-14'))
      expect(row['read_on']! <= end).toBe(true);
  });
});

describe('planted faults', () => {
  const count = (fault: string) => demo.faults.filter((entry) => entry.fault === fault).length;

  test('are as many as the README says', () => {
    expect(count('odometer_back')).toBe(2);
    expect(count('future_date')).toBe(2);
    expect(count('unknown_unit')).toBe(2);
    expect(count('duplicate')).toBe(12);
    for (const once of [
      'impossible_share',
      'impossible_date',
      'impossible_amount',
      'idle_above_engine_hours',
      'missing_unit',
    ])
      expect(count(once), once).toBe(1);
  });

  test('stand on the lines they are listed for', () => {
    const marks: Readonly<Record<string, RegExp>> = {
      future_date: /2062-/,
      unknown_unit: /^(9917|33O7),/,
      impossible_date: /2025-02-30/,
      impossible_amount: /,570,/,
      idle_above_engine_hours: /,88000\.5,/,
      impossible_share: /screen_blocked_share,40,/,
      missing_unit: /^,/,
    };
    for (const { file, line, fault } of demo.faults) {
      const lines = demo.files[file]!.split('\n');
      const text = lines[line - 1]!;
      if (fault === 'duplicate') expect(text, `${file}:${line}`).toBe(lines[line - 2]);
      else if (fault === 'odometer_back') expect(Number(text.split(',')[2])).toBeLessThan(20);
      else expect(text, `${file}:${line}`).toMatch(marks[fault]!);
    }
  });
});
