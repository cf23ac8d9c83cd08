import { expect, test } from 'vitest';
import { findingWords } from '../../../models/assessment/findingWords.ts';
import { findingKinds } from '../../../models/schema/finding.ts';

test('a measured finding has its unit behind its number, another its word', () => {
  expect(findingWords('start_rattle_s', '6.5')).toBe('start rattle: 6.5 s');
  expect(findingWords('hot_idle_pressure_kpa', '159')).toBe('hot idle pressure: 159 kPa');
  expect(findingWords('cover_view', 'moderate')).toBe('cover view: moderate');
  expect(findingWords('screen_blocked_share', '0.4')).toBe('screen blocked share: 0.4');
  expect(findingWords('oil_level_low_l', 'about one')).toBe('oil level low: about one');
  expect(findingWords('cleared', null)).toBe('cleared: no value');
});

test('no finding shows the name of its column', () => {
  for (const kind of findingKinds) expect(findingWords(kind, '1')).not.toMatch(/_|kpa| deg/);
});
