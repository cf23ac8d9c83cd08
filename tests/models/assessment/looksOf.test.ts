import { describe, expect, it } from 'vitest';
import { looksOf } from '../../../models/assessment/looksOf.ts';
import { callMoneySetting } from '../../../models/assessment/renewalPays.ts';
import { unitLooks, type UnitLooks } from '../../../models/schema/looksEndpoint.ts';
import { coefficients, labUnit, type Lab } from './sampleFixture.ts';

const setting = callMoneySetting(365, 3);
const phasers = { phasers: 2, camSprocketTeeth: 36, chainPitchMm: 8, tightStrandMm: 300 };
const looks = (lab: Lab): UnitLooks =>
  unitLooks.parse(
    looksOf(labUnit({ ...lab, engine: { ...phasers, ...lab.engine } }), setting, 'EUR', coefficients),
  );

describe('looks and reasons of wear of a unit', () => {
  it('finds no look worth its cost on a sound highway unit; worth is 0 exactly where no result changes the action', () => {
    const sound = looks({});
    expect(sound.actionNow).toBe('run');
    expect(sound.states!.neither).toBeGreaterThan(0.9);
    expect(sound.looks.map(({ look }) => look).sort()).toEqual(['cover', 'phase', 'screen']);
    for (const { worthCents, netCents, lookCents, findings } of sound.looks) {
      expect(netCents).toBeLessThan(0);
      expect(netCents).toBe(worthCents - lookCents);
      expect(worthCents === 0).toBe(findings.every(({ action }) => action === 'run'));
      expect(findings[0].chance + findings[1].chance).toBeCloseTo(1, 2);
    }
    expect(sound.looks.some(({ worthCents }) => worthCents === 0)).toBe(true);
  });

  it('ranks by net worth, between nothing and what perfect knowledge is worth', () => {
    const signs = [
      { foundOn: '2024-05-20', finding: 'phase_deviation_crank_deg' as const, value: '2.6' },
      { foundOn: '2024-05-20', finding: 'start_rattle_s' as const, value: '2', soakH: 10 },
    ];
    const doubtful = looks({ findings: signs });
    const nets = doubtful.looks.map(({ netCents }) => netCents);
    expect([...nets].sort((a, b) => b - a)).toEqual(nets);
    for (const { worthCents } of doubtful.looks) {
      expect(worthCents).toBeGreaterThanOrEqual(0);
      expect(worthCents).toBeLessThanOrEqual(doubtful.perfectCents! + 1);
    }
    expect(doubtful.states!.worn).toBeGreaterThan(looks({}).states!.worn);
  });

  it('leaves out the looks that the engine has nothing for', () => {
    const belt = looks({ engine: { timingDrive: 'belt', phasers: 0 } });
    expect(belt.looks.map(({ look }) => look)).toEqual(belt.reason === null ? ['cover'] : []);
  });

  it('has causes that add up to each state', () => {
    const view = labUnit({ engine: phasers });
    const { causes } = looksOf(view, setting, 'EUR', coefficients);
    const sum = (state: string): number =>
      causes.reduce((total, cause) => (cause.state === state ? total + cause.amount : total), 0);
    expect(sum('sludge')).toBeCloseTo(view.states.now.sludge!.value, 9);
    expect(sum('chain')).toBeCloseTo(view.states.now.chainPercent!.value, 9);
    expect(sum('phaser')).toBeCloseTo(view.states.now.phaserShare!.value, 9);
  });
});
