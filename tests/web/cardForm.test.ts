import { expect, test } from 'vitest';
import { jobCard } from '../../models/schema/jobCard.ts';
import { closingOf } from '../../web/parts/cardForm.ts';

const item = { words: '', quantity: 1, oneTime: false, onHand: null };
const card = jobCard.parse({
  unitNumber: 'A1',
  description: null,
  site: null,
  engineFamily: null,
  engineWords: '',
  jobs: ['oil_change'],
  jobWords: ['oil and filter'],
  cautions: [],
  notes: [],
  tools: [],
  items: [
    { ...item, item: 'oil 5W-30', measure: 'l' },
    { ...item, item: 'filter F', measure: 'pieces' },
  ],
  steps: [
    {
      id: 'pressure_before',
      section: '',
      words: '',
      needs: 'value',
      value: { label: 'pressure', type: 'number', unit: 'kPa' },
      kind: 'common practice',
      source: 'common practice, no source',
      unsure: null,
    },
  ],
  findings: [
    { finding: 'hot_idle_pressure_kpa', label: '', bank: null, input: 'number', unit: 'kPa', choices: [] },
    { finding: 'oil_level_low_l', label: '', bank: null, input: 'number', unit: 'L', choices: [] },
    { finding: 'screen_blocked_share', label: '', bank: '1', input: 'percent', unit: '%', choices: [] },
  ],
  renewable: [],
  oil: { grade: '5W-30', category: null, amountL: 5.7 },
  asOf: '2026-03-31',
  makersReferenceNeeded: false,
  plannedHours: null,
  lastOdometerKm: 1000,
});
const form = {
  ticks: {},
  text: {
    odometerKm: '100',
    usedOilL: '5,5',
    'steps.pressure_before.value': '25',
    'findings.hot_idle_pressure_kpa.': '25',
    'oil.grade': '5W-30',
    'oil.amountL': '6',
    'findings.oil_level_low_l.': '1',
    'findings.screen_blocked_share.1': '40',
    'stock.oil 5W-30': '6',
    'stock.filter F': '1',
  },
};

test('a card that is filled in with miles, quarts and psi closes with km, litres and kPa', () => {
  // NIST SP 811: 1 mi = 1.609 344 km, 1 US liquid quart = 0.946 352 946 L, 1 psi = 6.894 757 kPa; by hand
  expect(closingOf(card, form, 'us')).toMatchObject({
    odometerKm: 160.9,
    usedOilL: 5.2,
    oil: { amountL: 5.68 },
    steps: [{ value: '172.4' }],
    findings: [{ value: '172.4' }, { value: '0.95' }, { value: '0.4' }],
    stockUsed: [
      { item: 'oil 5W-30', quantity: 5.68 },
      { item: 'filter F', quantity: 1 },
    ],
  });
  expect(closingOf(card, form, 'metric')).toMatchObject({
    odometerKm: 100,
    usedOilL: 5.5,
    oil: { amountL: 6 },
    steps: [{ value: '25' }],
    findings: [{ value: '25' }, { value: '1' }, { value: '0.4' }],
    stockUsed: [{ quantity: 6 }, { quantity: 1 }],
  });
});
