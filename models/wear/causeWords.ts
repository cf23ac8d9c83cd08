import type { StateCause, WearPoint } from './states.ts';

/** A state with its measure in words. */
const names = {
  sludge: { name: 'sludge', measure: 'of 10', digits: 1 },
  chain: { name: 'chain elongation', measure: '%', digits: 2 },
  phaser: { name: 'phaser wear', measure: 'of its median life', digits: 2 },
} as const;

/** What a shop can do about a cause. */
const remedies: Readonly<Record<string, string>> = {
  'drains later than the book': 'drains on time',
  'faults that spoil oil': 'curing ventilation, thermostat, level and filter faults',
  'oil below the engine’s specification': 'the oil the engine asks for',
  idling: 'less idling',
  'short trips and cold starts': 'longer trips with fewer cold starts',
  'towing and dust': 'less towing and dust, or severe service intervals',
  'fuel in the oil': 'finding the source of the fuel in the oil',
  soot: 'finding the source of the soot',
};

/**
 * One sentence per state: how far it is and what made most of it; e.g. "Sludge about 5.3 of 10, most of it from drains later
 * than the book (2.1) and idling (1.4)."
 */
export function wearSentences(now: WearPoint, causes: readonly StateCause[]): readonly string[] {
  const values = { sludge: now.sludge, chain: now.chainPercent, phaser: now.phaserShare };
  const sentences: string[] = [];
  for (const state of ['sludge', 'chain', 'phaser'] as const) {
    const range = values[state];
    if (range === null) continue;
    const { name, measure, digits } = names[state];
    const largest = causes
      .filter((cause) => cause.state === state && cause.amount > 0.1 * range.value)
      .sort((a, b) => b.amount - a.amount)
      .slice(0, 2)
      .map(({ cause, amount }) => `${cause} (${amount.toFixed(digits)})`);
    const head = `${name[0].toUpperCase()}${name.slice(1)} about ${range.value.toFixed(digits)} ${measure}`;
    sentences.push(largest.length === 0 ? `${head}.` : `${head}, most of it from ${largest.join(' and ')}.`);
  }
  return sentences;
}

/** What would have changed the states most, as sentences, most first; only what a shop or driver can do. */
export function wearRemedies(now: WearPoint, causes: readonly StateCause[]): readonly string[] {
  const values = { sludge: now.sludge, chain: now.chainPercent, phaser: now.phaserShare };
  return causes
    .flatMap((cause) => {
      const value = values[cause.state]?.value ?? 0;
      const remedy = remedies[cause.cause];
      const share = value > 0 ? cause.amount / value : 0;
      return remedy === undefined || share < 0.1 ? [] : [{ cause, remedy, share }];
    })
    .sort((a, b) => b.share - a.share)
    .slice(0, 3)
    .map(
      ({ cause, remedy, share }) =>
        `With ${remedy}, ${names[cause.state].name} would be about ${Math.round(100 * share)} % less.`,
    );
}
