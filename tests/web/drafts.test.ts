import fc from 'fast-check';
import { expect, test } from 'vitest';
import { typedSince } from '../../web/parts/drafts.ts';

test('worked by hand: what was typed after a send stays, what still says what was sent goes', () => {
  const sent = { note: 'slip 1', liters: '20', site: 'Millbank' };
  expect(typedSince({ ...sent, note: 'slip 2' }, sent)).toEqual({ note: 'slip 2' });
  expect(typedSince(sent, { note: 'slip 1' })).toEqual({ liters: '20', site: 'Millbank' });
  const card = { text: { technician: 'Ines Farrow', note: '' }, ticks: { 'steps.1': true } };
  expect(typedSince(card, card)).toEqual({});
  expect(typedSince({ ...card, ticks: { 'steps.1': true, 'steps.2': true } }, card)).toEqual({
    ticks: { 'steps.2': true },
  });
  expect(typedSince({ confirmed: ['a', 'b'] }, { confirmed: ['a'] })).toEqual({ confirmed: ['a', 'b'] });
});

test('property: laid over what was sent, what stays is the form as it is now', () => {
  const fields = fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd'), fc.string(), { noNullPrototype: true });
  fc.assert(
    fc.property(fields, fields, (sent, typed) => {
      const now = { ...sent, ...typed };
      expect({ ...sent, ...typedSince(now, sent) }).toEqual(now);
      expect(typedSince(now, now)).toEqual({});
    }),
  );
});
