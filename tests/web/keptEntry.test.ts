import { expect, test } from 'vitest';
import { bodyToSend, dayOf, type KeptEntry } from '../../web/parts/keptEntry.ts';

const evening = new Date(2026, 2, 14, 23, 40);
const entry: KeptEntry = {
  key: 'a',
  title: 'Job card of unit 7',
  path: '/api/cards',
  at: evening.toISOString(),
  body: { closedOn: null },
  later: { closedOn: '2026-03-14' },
};

test('a card that says no day and is sent on the next is of the day on which it was entered', () => {
  expect(dayOf(evening)).toBe('2026-03-14');
  expect(bodyToSend(entry, new Date(2026, 2, 14, 23, 59))).toEqual({ closedOn: null });
  expect(bodyToSend(entry, new Date(2026, 2, 15, 0, 1))).toEqual({ closedOn: '2026-03-14' });
});

test('in the demo, and kept by an earlier build, it goes as it was entered', () => {
  const next = new Date(2026, 2, 15, 8, 0);
  expect(bodyToSend({ ...entry, demo: true }, next)).toEqual({ closedOn: null });
  expect(bodyToSend({ ...entry, later: undefined }, next)).toEqual({ closedOn: null });
});
