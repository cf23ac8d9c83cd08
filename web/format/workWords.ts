import type { WorkKind } from '../../models/schema/service.ts';

/** Jobs of a service row as people read them. */
export const workWords: Readonly<Record<WorkKind, string>> = {
  oil_change: 'oil change',
  top_up: 'oil topped up',
  filter: 'oil filter',
  timing_set: 'timing set renewed',
  phaser: 'phaser renewed',
  oil_control_solenoid: 'oil control solenoid',
  tensioner_guides: 'tensioner and guides',
  belt: 'timing belt',
  cam_sensor: 'cam sensor',
  crank_sensor: 'crank sensor',
  ventilation_valve: 'crankcase ventilation valve',
  thermostat: 'thermostat',
  screen_cleaned: 'oil screen cleaned',
  engine: 'engine renewed',
  meter_replaced: 'meter replaced',
  inspection: 'inspection',
  other: 'none of these jobs',
};
