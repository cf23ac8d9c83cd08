import { expect, test } from 'vitest';
import synonyms from '../../../data/catalog/column-synonyms.json';
import { assignColumns } from '../../../models/intake/assignColumns.ts';
import { gatherEvidence } from '../../../models/intake/evidence.ts';
import { columnSynonyms, vocabularyOf } from '../../../models/intake/synonyms.ts';

const vocabulary = vocabularyOf(columnSynonyms.parse(synonyms));

/** The fields that the columns of a service table are taken for; null = none. */
function fieldsOf(headers: readonly string[], rows: readonly (readonly string[])[]) {
  const gathered = gatherEvidence(headers.length);
  gathered.observe(rows);
  const look = { headers, evidence: gathered.columns };
  return assignColumns(look, 'service', vocabulary).matches.map((match) => match?.field ?? null);
}

const headers = ['Truck', 'Date', 'Miles', 'Job', 'Qty'];
const visit = (job: string, amount: string) => ['A1', '03/14/2024', '45210', job, amount];

test('an amount whose cells are quarts or litres is the oil of a service', () => {
  const rows = [
    visit('LOF', '6.0 qt'),
    visit('oil change', '6.5 qt'),
    visit('brakes', ''),
    visit('LOF', '5 L'),
  ];
  expect(fieldsOf(headers, rows)).toEqual(['unitNumber', 'servicedOn', 'odometerKm', 'work', 'oilL']);
  expect(fieldsOf(['Truck', 'Date', 'Miles', 'Job', 'Menge'], rows)[4]).toBe('oilL');
});

test('an amount of anything else, or too much for an engine, is left', () => {
  const pieces = [visit('LOF', '1'), visit('tires', '4'), visit('wipers', '2')];
  expect(fieldsOf(headers, pieces)[4]).toBeNull();
  const bulk = [visit('bulk oil', '800 L'), visit('bulk oil', '900 L'), visit('LOF', '6 qt')];
  expect(fieldsOf(headers, bulk)[4]).toBeNull();
  const fuel = [visit('LOF', '45 L'), visit('LOF', '50 L'), visit('LOF', '48 L')];
  expect(fieldsOf(['Truck', 'Date', 'Miles', 'Job', 'Diesel'], fuel)[4]).toBeNull();
});
