/** What a reader must know of one kind of model before trusting it. */
export interface ModelDescription {
  readonly id: string;
  readonly title: string;
  readonly version: string;
  readonly gives: string;
  readonly inputs: string;
  readonly formula: string;
  readonly assumes: readonly string[];
  readonly limits: readonly string[];
  readonly moves: string;
  /** beginnings of the ids of its coefficients in the catalog */
  readonly coefficients: readonly string[];
}

/** The fitted and estimated models, in the order in which they build on each other. */
export const modelDescriptions: readonly ModelDescription[] = [
  {
    id: 'oil-condition',
    title: 'Oil condition',
    version: '1',
    gives:
      'Base number, acid number, additive, oxidation, soot, fuel, viscosity and dispersancy of the oil in the engine.',
    inputs:
      'Grade, category and amount filled; distance, engine and idle hours, starts, fuel burned, climate and duty since; samples.',
    formula:
      'Each property runs by its own rate per hour, per litre of fuel or per start, raised by temperature; top-ups dilute; a sample moves the rates of its unit and family, the more the surer it is.',
    assumes: [
      'The oil on the record is the oil in the engine',
      'Duty between two meter readings is even',
      'Missing meters are like those of comparable units',
    ],
    limits: ['It does not know single additives', 'Coolant and dirt show only in samples and findings'],
    moves: 'The unit’s and the family’s own samples.',
    coefficients: ['oil.', 'duty.'],
  },
  {
    id: 'interval',
    title: 'Drain interval',
    version: '2',
    gives: 'Distance, hours and date at which the oil is to be changed, with a range, and what governs it.',
    inputs:
      'Oil condition and its error, condemning limits, the maker’s book, hours and calendar limits, use per day.',
    formula:
      'The first limit to be reached: chance that each property has passed its limit by a distance, the book and the calendar as fixed ends; use per day turns distance into a date.',
    assumes: [
      'Use goes on as over the last months',
      'Nothing allows more than the book without a named approval',
    ],
    limits: [
      'A change of duty shows only after new readings',
      'A drain that nobody recorded makes the date wide: both accounts are weighed by how likely they are',
    ],
    moves: 'Samples, drains, readings, approvals of longer intervals.',
    coefficients: ['sample.', 'approval.'],
  },
  {
    id: 'wear',
    title: 'Sludge, chain and phaser',
    version: '2',
    gives:
      'Sludge index 0 to 10, chain elongation in per cent, phaser wear as a share of a median life, each with its range.',
    inputs: 'What each oil charge left behind; findings, codes, rattle, measured elongation, renewals.',
    formula:
      'Sums over charges of wear per hour times factors for soot, fuel, lost additive, thin oil and deposits; findings and codes weigh the possible courses (Bayes’ rule).',
    assumes: [
      'A renewed part begins at zero; covers off for timing work take some sludge out',
      'Units of a family differ by factors of a log-normal law',
      'Life before the records was like the oil charges on record',
    ],
    limits: [
      'Rates are assumptions until findings move them',
      'No part is seen: a band is wide where nobody has looked',
    ],
    moves: 'Findings, measured elongation, codes, and lives of renewed parts of the fleet.',
    coefficients: ['wear.', 'evidence.'],
  },
  {
    id: 'failure',
    title: 'Chance of a timing failure',
    version: '2',
    gives:
      'Chance that a unit’s timing drive fails within the horizon, with its range, its causes, and how much of it is the fleet’s own experience.',
    inputs:
      'Lives of timing sets from installation to failure, planned renewal, disposal or today; use and oil care along them; codes, rattle and findings; engine family.',
    formula:
      'Weibull law on a damage clock: S = exp(−(D/η)^β), D adding up hours (or distance) × exp(effects of oil stress, sludge, overrun and starts); evidence multiplies the hazard. Up to three clocks are averaged by how well they predict sets left out; their chances are pulled to the base rate as far as sets left out prove them too steep, and brought to the level of the recent years. The number of failures carries the doubt about all this, and how far whole years lay from what was expected.',
    assumes: [
      'Priors on every coefficient; families share a spread',
      'A renewal without an outcome is a failure with a chance judged from codes, findings and words',
      'Units bought used had run before: their sets enter late, or may have been renewed unrecorded',
      'Planned renewals go on as up to today; the chance without them is worked out beside it',
    ],
    limits: [
      'Few failures: the range is mostly prior experience, and says so',
      'What changed in the fleet after the last failure is not known to it',
      'It orders units better than it dates failures',
    ],
    moves: 'Every failure and every year survived. Proof shows how it did on the fleet’s own past.',
    coefficients: ['failure.'],
  },
  {
    id: 'money',
    title: 'Money',
    version: '1',
    gives: 'What renewing, looking first or waiting costs and saves, with the chance of losing by it.',
    inputs:
      'Chance of failure over time, planned and unplanned costs of the engine family, days out of service, planned disposal.',
    formula:
      'Expected cost of each choice up to the horizon: planned cost now against unplanned cost × chance of failure, both as they would come with time.',
    assumes: ['Costs of the family hold for the unit', 'A renewed set begins a new life of the same law'],
    limits: [
      'It does not know what a missed job costs a customer',
      'Costs that were not entered are assumptions',
    ],
    moves: 'Costs in the engine records, failures, renewals.',
    coefficients: ['money.', 'policy.', 'look.'],
  },
];
