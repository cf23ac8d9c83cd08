const dayMs = 86_400_000;

/** Read once, so that a midnight in the middle of a test moves nothing. */
const nowMs = Date.now();

/** The day so many days ago, as ISO date. */
export function isoAgo(days: number): string {
  return new Date(nowMs - days * dayMs).toISOString().slice(0, 10);
}

/** Days of a unit's records. */
const span = 1500;

interface Use {
  readonly kmPerDay: number;
  readonly hoursPerDay: number;
  readonly idlePerDay: number;
  readonly drainEvery: number;
}

const uses: Readonly<Record<string, Use>> = {
  // an idling patrol car, drained late
  P1: { kmPerDay: 60, hoursPerDay: 6, idlePerDay: 4, drainEvery: 115 },
  // a van with a timing belt
  B1: { kmPerDay: 90, hoursPerDay: 2, idlePerDay: 0.3, drainEvery: 110 },
  // a van whose chain drive is not described
  N1: { kmPerDay: 90, hoursPerDay: 2, idlePerDay: 0.3, drainEvery: 110 },
};

/** Three units as of today, in the own layout. */
export function deskFleet(): Record<string, string> {
  const readings = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  const service = ['unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l,outcome'];
  for (const [unit, { kmPerDay, hoursPerDay, idlePerDay, drainEvery }] of Object.entries(uses)) {
    for (let ago = span; ago >= 0; ago -= 50) {
      const days = span - ago;
      readings.push([unit, isoAgo(ago), kmPerDay * days, hoursPerDay * days, idlePerDay * days].join(','));
    }
    for (let ago = span - drainEvery; ago > 0; ago -= drainEvery)
      service.push(
        [unit, isoAgo(ago), kmPerDay * (span - ago), 'oil_change', '5W-30', 'API SP', 5, ''].join(','),
      );
  }
  service.push(['P1', isoAgo(40), 60 * (span - 40), 'timing_set', '', '', '', 'planned'].join(','));
  const engine = 'displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km';
  const drive = 'timing_drive,chain_pitch_mm,cam_sprocket_teeth,tight_strand_mm,phasers,interference';
  return {
    'engines.csv': [
      `engine_family,${engine},${drive}`,
      'Tarn 20,2.0,GDI,5,5W-30,API SP,10000,chain,8,36,300,2,yes',
      'Fell 22,2.2,PFI,5,5W-30,API SP,12000,belt,,,,0,yes',
      'Garth 25,2.5,PFI,5,5W-30,API SP,12000,chain,,,,2,',
      '',
    ].join('\n'),
    'units.csv': [
      'unit_number,duty,engine_family,in_service_on,in_service_odometer_km,status',
      `P1,patrol,Tarn 20,${isoAgo(span)},0,active`,
      `B1,delivery,Fell 22,${isoAgo(span)},0,active`,
      `N1,delivery,Garth 25,${isoAgo(span)},0,active`,
      '',
    ].join('\n'),
    'readings.csv': `${readings.join('\n')}\n`,
    'service.csv': `${service.join('\n')}\n`,
  };
}
