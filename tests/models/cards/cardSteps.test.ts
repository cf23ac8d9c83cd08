import { describe, expect, test } from 'vitest';
import catalog from '../../../data/catalog/job-card-steps.json';
import { cardSteps, type EngineAttributes } from '../../../models/cards/cardSteps.ts';
import { checkVisitStep, nextStates } from '../../../models/cards/visitMoves.ts';
import { cardStepFile } from '../../../models/schema/jobCard.ts';
import type { ShopJob } from '../../../models/schema/shopPlan.ts';
import { visitStates, type VisitState } from '../../../models/schema/visit.ts';

const file = cardStepFile.parse(catalog);
const vee: EngineAttributes = { drive: 'chain', phasers: 4, interference: true, banks: 2 };
const wordsOf = (jobs: readonly ShopJob[], engine: EngineAttributes): string[] =>
  cardSteps(file, jobs, engine).map(({ words }) => words);

/** Each phrase stands in a step of its own order: none before the one above it. */
function inOrder(steps: readonly string[], phrases: readonly RegExp[]): void {
  const places = phrases.map((phrase) => steps.findIndex((words) => phrase.test(words)));
  expect(phrases.filter((_, index) => places[index] < 0)).toEqual([]);
  expect(places).toEqual([...places].sort((a, b) => a - b));
}

describe('steps of a card (common practice, no source)', () => {
  test('every step says so, and none gives a torque', () => {
    for (const step of file.steps) {
      expect([step.kind, step.source]).toEqual(['common practice', 'common practice, no source']);
      expect(step.words).not.toMatch(/\d+ ?(N·?m|Nm|lb)/);
    }
  });

  test('a renewal of phasers on a chain engine with two banks carries the whole practice, in working order', () => {
    const steps = wordsOf(['phaser'], vee);
    inOrder(steps, [
      /code with its freeze frame before anything is cleared/,
      /maker's procedure for this engine and name it/,
      /solenoid out first and look at its oil screens; record how much/,
      /tensioner back with its proper pin or tool before the chain is freed/,
      /camshaft against turning on its flats .*never on a locking tool/,
      /old chain stays: mark chain against phaser/,
      /left and the right bank differ/,
      /phaser's bolt a touch while the camshaft still lies/,
      /Number the camshaft caps with place and direction/,
      /no follower or lash piece is displaced/,
      /control solenoid with the phaser while the cover is off/,
      /dowel .* on the bench, camshaft out.*shears.*false warranty claim/,
      /New phaser bolt and seals.*used once and carries oil/,
      /broken guide means: pan off, .*pickup cleaned/,
      /Oil journals, lobes and seals with clean oil/,
      /every bolt by hand; draw the caps down evenly in steps.*maker's information/,
      /second person checks/,
      /two full turns by hand/,
      /fresh oil of the grade/,
      /oil pressure with fuel and ignition disabled/,
      /Read oil pressure again/,
      /Clear the stored codes/,
      /relearn/,
    ]);
    expect(steps.join()).not.toMatch(/New chain:/);
  });

  test('a new chain is set by the maker’s marks; belts, single banks and free-running engines get their own', () => {
    const set = wordsOf(['timing_set', 'phaser'], vee).join();
    expect(set).toMatch(/New chain: use the maker's setting marks and tools/);
    expect(set).not.toMatch(/old chain stays/);
    const belt = wordsOf(['timing_set'], { drive: 'belt', phasers: 0, interference: false, banks: 1 }).join();
    expect(belt).toMatch(/Renew belt/);
    expect(belt).not.toMatch(/chain|phaser|Marks of the left|pistons meet/);
  });

  test('an oil card: grade and amount, drain seal, filter, used oil, level after running, leaks, reminder', () => {
    inOrder(wordsOf(['oil_change'], vee), [
      /New seal on the drain plug/,
      /Renew the filter/,
      /how much used oil/,
      /grade and amount on this card/,
      /Run the engine, stop, wait, read the level again/,
      /Look for leaks/,
      /own oil reminder before resetting/,
      /Reset the vehicle's own reminder/,
    ]);
  });
});

describe('states of a visit', () => {
  const off = { reason: 'the route', approver: 'Marl Tessen', manager: 'Juna Holt', newDate: '2026-05-01' };
  const step = (state: VisitState, to: VisitState) =>
    checkVisitStep(
      { state, on: '2026-04-10', timesPutOff: 0 },
      { to, by: 'Vera Linden', ...off },
      '2026-04-06',
    );

  test('every state but done leads on, done only through its card, and nothing else is let through', () => {
    for (const state of visitStates)
      for (const to of visitStates) {
        const open = nextStates(state).includes(to) && to !== 'done';
        expect([state, to, step(state, to).length === 0]).toEqual([state, to, open]);
      }
    expect(visitStates.filter((state) => nextStates(state).length === 0)).toEqual(['done']);
  });

  test('every state is reached from being asked for', () => {
    const reached = new Set<VisitState>(['asked']);
    for (const state of reached) nextStates(state).forEach((to) => reached.add(to));
    expect([...reached].sort()).toEqual(visitStates.filter((state) => state !== 'done').sort());
  });
});
