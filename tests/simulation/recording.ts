/** What a shop writes down, from everything to the odometer alone. */
export interface RecordingHabit {
  readonly name: string;
  /** days between meter readings; null: none apart from the service rows */
  readonly readingEveryDays: number | null;
  /** chance that a due reading is missing */
  readonly gapShare: number;
  readonly hours: boolean;
  readonly idle: boolean;
  readonly fuelMeter: boolean;
  readonly starts: boolean;
  readonly fuelFills: boolean;
  /** share of drains with a laboratory sample */
  readonly sampleShare: number;
  /** share of looks that are written down */
  readonly findingShare: number;
  readonly codes: boolean;
  /** share of drains with grade and category on the row */
  readonly gradeShare: number;
  /** share of service rows with an odometer */
  readonly odometerShare: number;
  /** share of renewals with their outcome */
  readonly outcomeShare: number;
  /** share of service rows that become known weeks later */
  readonly lateShare: number;
  /** brakes, tyres and the like are in the history too */
  readonly otherWork: boolean;
}

/** From rich to almost nothing. */
export const recordingHabits = {
  rich: {
    name: 'rich',
    readingEveryDays: 30,
    gapShare: 0.03,
    hours: true,
    idle: true,
    fuelMeter: true,
    starts: true,
    fuelFills: true,
    sampleShare: 0.35,
    findingShare: 0.9,
    codes: true,
    gradeShare: 0.97,
    odometerShare: 0.99,
    outcomeShare: 0.97,
    lateShare: 0.02,
    otherWork: true,
  },
  fair: {
    name: 'fair',
    readingEveryDays: 31,
    gapShare: 0.12,
    hours: true,
    idle: true,
    fuelMeter: false,
    starts: false,
    fuelFills: false,
    sampleShare: 0.06,
    findingShare: 0.6,
    codes: true,
    gradeShare: 0.8,
    odometerShare: 0.95,
    outcomeShare: 0.85,
    lateShare: 0.06,
    otherWork: true,
  },
  hoursOnly: {
    name: 'hoursOnly',
    readingEveryDays: 45,
    gapShare: 0.25,
    hours: true,
    idle: false,
    fuelMeter: false,
    starts: false,
    fuelFills: false,
    sampleShare: 0.02,
    findingShare: 0.4,
    codes: true,
    gradeShare: 0.6,
    odometerShare: 0.92,
    outcomeShare: 0.7,
    lateShare: 0.08,
    otherWork: true,
  },
  odometerOnly: {
    name: 'odometerOnly',
    readingEveryDays: 60,
    gapShare: 0.3,
    hours: false,
    idle: false,
    fuelMeter: false,
    starts: false,
    fuelFills: false,
    sampleShare: 0,
    findingShare: 0.15,
    codes: false,
    gradeShare: 0.4,
    odometerShare: 0.9,
    outcomeShare: 0.5,
    lateShare: 0.1,
    otherWork: true,
  },
} as const satisfies Record<string, RecordingHabit>;
export type RecordingName = keyof typeof recordingHabits;
