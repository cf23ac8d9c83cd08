import type { ForeignFile } from './foreignFile.ts';

export const codeFiles: readonly ForeignFile[] = [
  {
    name: 'telematics faults.csv',
    mark: true,
    text: `Device Name,Timestamp,DTC,Status,Description
101,2024-01-20 06:15:00,P0011,Active,cam timing over-advanced
102,2024-01-21 17:40:10,P0524,Pending,oil pressure low
101,2024-01-20 09:15:00,P0341,Active,
`,
    kind: 'codes',
    accepted: 3,
    holds: [
      [0, 'code', 'P0011'],
      [1, 'seen_on', '2024-01-21'],
    ],
  },
  {
    name: 'Fehlerspeicher.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Datum;Fehlercode;Status
101;20.01.2024;P0016;gespeichert
102;21.02.2024;P0021;sporadisch
`,
    kind: 'codes',
    accepted: 2,
    holds: [
      [0, 'seen_on', '2024-01-20'],
      [1, 'code', 'P0021'],
    ],
  },
  {
    name: 'codes defaut.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Véhicule\tDate\tCode défaut\tStatut
101\t20/01/2024\tP0014\tmémorisé
102\t22/01/2024\tp0017\tprésent
`,
    kind: 'codes',
    accepted: 2,
    holds: [[1, 'code', 'P0017']],
  },
  {
    name: 'scan book.xlsx',
    sheets: [
      {
        name: 'Scans',
        merged: ['A1:C1'],
        rows: [
          ['Scan tool log', null, null],
          ['Unit', 'Scan date', 'Trouble code'],
          ['101', 45311, 'P0011'],
          ['102', 45312, 'P0008'],
        ],
      },
    ],
    kind: 'codes',
    accepted: 2,
    holds: [[0, 'seen_on', '2024-01-20']],
  },
  {
    name: 'fallas.txt',
    text: `Unidad|Fecha|Código de falla|Estado
101|20/01/2024|P0010|activo
102|21/01/2024|P0020|activo
102|22/01/2024|ninguno|
`,
    kind: 'codes',
    accepted: 2,
    held: 1,
    holds: [[0, 'code', 'P0010']],
  },
];
