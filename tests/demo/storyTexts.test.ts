import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { wearRemedies, wearSentences } from '../../models/wear/causeWords.ts';
import type { UnitAssessment } from '../../models/schema/assessment.ts';
import { unitNow, unitStoryOf } from '../../server/services/unitNow.ts';
import { startServer, type Running } from '../server/running.ts';
import { stories } from './stories.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(async () => {
  await server.stop();
});

type Between = readonly [number, number];

/** What a practitioner expects of a story. */
interface Expected {
  readonly calls: readonly UnitAssessment['call'][];
  /** stands in the first reason */
  readonly reason: RegExp;
  readonly sludge: Between;
  /** null: no chain */
  readonly chainPercent: Between | null;
  readonly phaserShare: Between;
  /** stands among the sentences and remedies of wear */
  readonly wear: RegExp;
  /** stands among what is said of the interval, what would change it, and the oil asked for */
  readonly oil: RegExp;
}

const expected: Readonly<Record<string, Expected>> = {
  // careful highway: clean, little wear from distance alone
  '1107': {
    calls: ['plan', 'clear', 'watch'],
    reason: /^oil due in|^nothing due/,
    sludge: [0, 0.5],
    chainPercent: [0.05, 0.25],
    phaserShare: [0, 0.2],
    wear: /Chain elongation about 0\.1\d %, most of it from distance and hours in steady driving/,
    oil: /^Change the oil .* What decides: .*/m,
  },
  // idling patrol on the distance sticker
  '2205': {
    calls: ['book'],
    reason: /^oil \d+ days? past due/,
    sludge: [4, 10],
    chainPercent: [0.25, 0.6],
    phaserShare: [0.3, 1.2],
    wear: /Sludge about .*drains later than the book .*idling/,
    oil: /^The oil is past its interval .* \(severe service\): [^]*^Halving the idling: about [\d ]+ km \(\d+ days\) more/m,
  },
  // short trips in the cold, but changed often: nothing due, but fuel in winter
  '5504': {
    calls: ['plan', 'watch'],
    reason: /^fuel in the oil settles at about \d\.\d % in January|^oil due in/,
    sludge: [0, 2],
    chainPercent: [0.1, 0.35],
    phaserShare: [0.05, 0.4],
    wear: /longer trips with fewer cold starts, phaser wear would be about \d+ % less/,
    oil: /severe interval is not recorded[^]*^Fuel in the oil settles between \d\.\d and \d\.\d % over the year/m,
  },
  // towing: chain ahead of sludge
  '4425': {
    calls: ['book', 'plan'],
    reason: /^oil /,
    sludge: [0, 2],
    chainPercent: [0.2, 0.5],
    phaserShare: [0.05, 0.4],
    wear: /less towing and dust, or severe service intervals, chain elongation/,
    oil: /^The maker's severe interval is not recorded; the normal 12 000 km is taken times 0\.5\.$/m,
  },
  '6625': {
    calls: ['book', 'plan'],
    reason: /^oil /,
    sludge: [0, 3],
    chainPercent: [0.15, 0.45],
    phaserShare: [0.05, 0.4],
    wear: /oil the engine asks for, chain elongation would be about \d+ % less/,
    oil: /^Interval with the oil asked for \(0W-20, API SP\): [^]*^Wear with the oil asked for: chain wear about 29 % less/m,
  },
  // no changes for a year and a half; a belt in oil
  '3306': {
    calls: ['plan', 'watch', 'book'],
    reason: /^oil due in|^chance of a timing-drive failure/,
    sludge: [3, 10],
    chainPercent: null,
    phaserShare: [0.1, 0.7],
    wear: /^Sludge about .*drains later than the book/m,
    oil: /^Change the oil .* \(severe service\): /m,
  },
  '6603': {
    calls: ['plan', 'watch', 'book'],
    reason: /^oil due in|^chance of a timing-drive failure|^records of the last two years/,
    sludge: [0, 3],
    chainPercent: [0.1, 0.45],
    phaserShare: [0.05, 0.5],
    wear: /Chain elongation about .*distance and hours in steady driving/,
    oil: /^Change the oil .* What decides/m,
  },
  // renewed weeks ago: chain and phaser new, sludge not
  '2203': {
    calls: ['plan', 'watch', 'clear', 'book'],
    reason: /^oil due in|^oil \d+|^nothing due/,
    sludge: [0.5, 4],
    chainPercent: [0, 0.06],
    phaserShare: [0, 0.05],
    wear: /Chain elongation below 0\.1 %: hardly any/,
    oil: /What decides \(severe service\): [^]*^Halving the idling: about/m,
  },
  '2226': {
    calls: ['book', 'plan', 'watch'],
    reason: /^oil |^chance of a timing-drive failure/,
    sludge: [3.5, 8],
    chainPercent: [0.2, 0.6],
    phaserShare: [0.2, 1.2],
    wear: /^Sludge about .*idling/m,
    oil: /What decides \(severe service\): [^]*^Halving the idling: about/m,
  },
  '2202': {
    calls: ['stop'],
    reason: /^code P0016: crank and cam disagree on an interference engine/,
    sludge: [1, 10],
    chainPercent: [0.45, 1],
    phaserShare: [0.5, 1.5],
    wear: /Chain elongation about .*what was found on this unit/,
    oil: /^Wear with the oil asked for: chain wear about 29 % less; dispersancy about 18 % more, against sludge\.$/m,
  },
};

const inside = (value: number, [low, high]: Between): boolean => value >= low && value <= high;

describe('the ten stories read as a practitioner would tell them', () => {
  test('each has its expectation', () => {
    expect(Object.keys(expected).sort()).toEqual(stories.map(({ unitNumber }) => unitNumber).sort());
  });

  for (const [unitNumber, story] of Object.entries(expected))
    test(`${unitNumber}: ${stories.find((entry) => entry.unitNumber === unitNumber)?.title}`, async () => {
      const store = await server.context.current();
      const own = (await unitNow(server.context, store, unitNumber))!;
      const told = unitStoryOf(server.context, own);
      const { view } = own;
      const { call, reasons, sludge, chain, phaser } = told.assessment;
      expect(story.calls).toContain(call);
      expect(reasons[0]).toMatch(story.reason);
      expect(inside(sludge!.index, story.sludge), `sludge ${sludge!.index}`).toBe(true);
      if (story.chainPercent === null) expect(chain).toBeNull();
      else
        expect(
          inside(chain!.elongationPercent, story.chainPercent),
          `chain ${chain!.elongationPercent}`,
        ).toBe(true);
      expect(inside(phaser!.wearShare, story.phaserShare), `phaser ${phaser!.wearShare}`).toBe(true);
      const { now, causes } = view.states;
      const words = [...wearSentences(now, causes), ...wearRemedies(now, causes)];
      expect(words.join('\n')).toMatch(story.wear);
      const oil = [...told.intervalWords, ...told.whatWouldChange, ...told.rightOilEffect];
      expect(oil.join('\n')).toMatch(story.oil);
      expect(
        told.limits.map(({ marginDays }) => marginDays).every((days) => days !== null && days >= 0),
      ).toBe(true);
      for (const text of [...reasons, ...words, ...oil])
        expect(text).not.toMatch(/NaN|undefined|null|\b1 days/);
      for (const text of words) expect(Number(/(\d+) % less/.exec(text)?.[1] ?? 0)).toBeLessThanOrEqual(100);
    });
});
