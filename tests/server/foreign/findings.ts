import type { ForeignFile } from './foreignFile.ts';

export const findingFiles: readonly ForeignFile[] = [
  {
    name: 'shop findings.csv',
    text: `Unit,Found on,Odometer (mi),Finding,Value,Note
101,2024-01-20,"51,300",screen_blocked_share,30 %,intake side
102,2024-01-22,"6,950",cover view,moderate,
101,2024-02-02,"51,600",start_rattle_s,1.5 s,cold
`,
    kind: 'findings',
    accepted: 3,
    holds: [
      [0, 'value', '0.3'],
      [1, 'value', 'moderate'],
      [0, 'odometer_km', 82559.3472],
    ],
  },
  {
    name: 'Befunde.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Datum;KM-Stand;Befund;Wert;Bemerkung
101;20.01.2024;82.500;chain_elongation_percent;0,35;Bank 1
102;25.02.2024;11.950;hot_idle_pressure_kpa;140;warm
`,
    kind: 'findings',
    accepted: 2,
    holds: [
      [0, 'value', '0.35'],
      [1, 'odometer_km', 11950],
    ],
  },
  {
    name: 'constats.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Véhicule\tDate constat\tConstat\tValeur\tRemarque
101\t20/01/2024\toil_level_low_l\t1,2\tfroid
102\t22/01/2024\tthermostat_open\toui\t
`,
    kind: 'findings',
    accepted: 2,
    holds: [
      [0, 'value', '1.2'],
      [0, 'found_on', '2024-01-20'],
    ],
  },
  {
    name: 'inspection sheet.xlsx',
    sheets: [
      {
        name: 'Findings',
        rows: [
          ['Inspection sheet'],
          ['Date found', 'Truck', 'Finding', 'Value'],
          [45311, '101', 'phase_deviation_deg', 4.5],
          [45312, '102', 'coolant_in_oil', 'no'],
        ],
      },
    ],
    kind: 'findings',
    accepted: 2,
    holds: [
      [0, 'finding', 'phase_deviation_crank_deg'],
      [0, 'found_on', '2024-01-20'],
    ],
  },
  {
    name: 'hallazgos.txt',
    lineEnd: '\r',
    text: `Unidad|Fecha|Hallazgo|Valor
101|20/01/2024|cover_view|heavy
102|21/01/2024|ventilation_fault|sí
`,
    kind: 'findings',
    accepted: 2,
    holds: [[0, 'value', 'heavy']],
  },
];
