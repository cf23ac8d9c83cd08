import type { ForeignFile } from './foreignFile.ts';

export const readingFiles: readonly ForeignFile[] = [
  {
    name: 'telematics_daily.csv',
    mark: true,
    lineEnd: '\r\n',
    text: `Device Name,Date,Odometer (km),Engine Hours,Idle Hours
101,2024-03-01T00:00:00Z,"84,210.5",2100.4,610.2
101,2024-03-08T00:00:00Z,"84,790.1",2112.9,613.0
102,2024-03-01T00:00:00Z,"12,004.0",300.1,80.0
`,
    kind: 'readings',
    accepted: 3,
    holds: [
      [0, 'odometer_km', 84210.5],
      [0, 'read_on', '2024-03-01'],
      [1, 'idle_hours_h', 613],
    ],
  },
  {
    name: 'Zählerstände.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Datum;Kilometerstand;Betriebsstunden;Leerlaufstunden
101;01.02.2024;83.400;2.080,5;601,2
102;01.02.2024;11.350;281,0;75,5
`,
    kind: 'readings',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 83400],
      [0, 'engine_hours_h', 2080.5],
      [1, 'engine_hours_h', 281],
    ],
  },
  {
    name: 'meter log.xlsx',
    sheets: [
      {
        name: 'January',
        rows: [
          ['Meter readings January'],
          ['Truck #', 'Read date', 'Odometer mi', 'Eng hrs'],
          ['101', 45292, 50000, 2050],
          ['102', 45293, 6000, 250],
          ['Total', null, 56000, 2300],
        ],
      },
      {
        name: 'February',
        rows: [
          ['Meter readings February'],
          ['Truck #', 'Read date', 'Odometer mi', 'Eng hrs'],
          ['101', 45323, 51000, 2075],
        ],
      },
    ],
    kind: 'readings',
    accepted: 3,
    rejected: 1,
    holds: [
      [0, 'read_on', '2024-01-01'],
      [0, 'odometer_km', 80467.2],
      [2, 'read_on', '2024-02-01'],
    ],
  },
  {
    name: 'releve compteurs.tsv',
    encoding: 'utf-16be',
    mark: true,
    text: `Véhicule\tDate du relevé\tKilométrage\tHeures moteur
101\t31/01/2024\t83 250 km\t2077,0 h
102\t29/01/2024\t11 240 km\t279,5 h
`,
    kind: 'readings',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 83250],
      [1, 'engine_hours_h', 279.5],
    ],
  },
  {
    name: 'odo_export.csv',
    text: `sep=;
vehicle;reading date;odometer
101;28-Feb-2024;"52,010 mi"
102;28-Feb-2024;"7,090 mi"
`,
    kind: 'readings',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 83701.98144],
      [1, 'read_on', '2024-02-28'],
    ],
  },
  {
    name: 'readings_no_unit.csv',
    text: `unit,date,odometer\n101,2024-01-05,52000\n102,2024-01-05,7000\n`,
    kind: 'readings',
    asks: ['distance_unit'],
  },
];
