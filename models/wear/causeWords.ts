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

/** Below this a state is too small to be explained. */
const least = { sludge: 0.5, chain: 0.1, phaser: 0.1 } as const;
/** The name that the correction by findings has among the causes. */
const evidence = 'what was found on this unit';

/** What history alone gives for a state: all causes but the findings, never below 0. */
function historyOf(state: StateCause['state'], causes: readonly StateCause[]): number {
  return Math.max(
    0,
    causes.reduce(
      (sum, cause) => (cause.state === state && cause.cause !== evidence ? sum + cause.amount : sum),
      0,
    ),
  );
}

/**
 * One sentence per state: how far it is and what made most of it; e.g. "Sludge about 5.3 of 10, most of it from drains later
 * than the book (2.1) and idling (1.4)." Where findings lower it, what
 * history alone gives is said; where they raise it, by how much.
 */
export function wearSentences(now: WearPoint, causes: readonly StateCause[]): readonly string[] {
  const values = { sludge: now.sludge, chain: now.chainPercent, phaser: now.phaserShare };
  const sentences: string[] = [];
  for (const state of ['sludge', 'chain', 'phaser'] as const) {
    const range = values[state];
    if (range === null) continue;
    const { name, measure, digits } = names[state];
    const title = `${name[0].toUpperCase()}${name.slice(1)}`;
    if (range.value < least[state]) {
      sentences.push(`${title} below ${least[state]} ${measure}: hardly any.`);
      continue;
    }
    const found = causes.find((cause) => cause.state === state && cause.cause === evidence)?.amount ?? 0;
    const largest = causes
      .filter((cause) => cause.state === state && cause.amount > 0.1 * range.value)
      .sort((a, b) => b.amount - a.amount)
      .slice(0, 2)
      .map(({ cause, amount }) => `${cause} (${amount.toFixed(digits)})`);
    const head = `${title} about ${range.value.toFixed(digits)} ${measure}`;
    if (largest.length === 0) sentences.push(`${head}.`);
    else if (found < -0.1 * range.value)
      sentences.push(
        `${head}: by its history ${historyOf(state, causes).toFixed(digits)}, most from ${largest.join(' and ')}; what was found on this unit lowers it.`,
      );
    else {
      const raised = found > 0.05 * range.value && !largest.some((words) => words.startsWith(evidence));
      const more = raised ? `; ${evidence} raises it by ${found.toFixed(digits)}` : '';
      sentences.push(`${head}, most of it from ${largest.join(' and ')}${more}.`);
    }
  }
  return sentences;
}

/**
 * What would have changed the states most, as sentences, most first; only what a shop or driver can do. A cause's share is
 * of what the history gives, and never more than the whole.
 */
export function wearRemedies(now: WearPoint, causes: readonly StateCause[]): readonly string[] {
  const values = { sludge: now.sludge, chain: now.chainPercent, phaser: now.phaserShare };
  return causes
    .flatMap((cause) => {
      const value = values[cause.state]?.value ?? 0;
      const remedy = remedies[cause.cause];
      if (remedy === undefined || value < least[cause.state]) return [];
      const share = Math.min(1, cause.amount / Math.max(1e-9, historyOf(cause.state, causes)));
      return share < 0.1 ? [] : [{ cause, remedy, share }];
    })
    .sort((a, b) => b.share - a.share)
    .slice(0, 3)
    .map(
      ({ cause, remedy, share }) =>
        `With ${remedy}, ${names[cause.state].name} would be about ${Math.round(100 * share)} % less.`,
    );
}
