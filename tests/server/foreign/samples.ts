import type { ForeignFile } from './foreignFile.ts';

export const sampleFiles: readonly ForeignFile[] = [
  {
    name: 'lab results.csv',
    text: `Lab No,Unit ID,Sample Date,Report Date,Oil Miles,Fe ppm,Cu ppm,Pb ppm,Al ppm,Si ppm,Visc @ 100C (cSt),TBN,Fuel %,Soot %,Glycol
L-1,101,2024-01-20,2024-01-25,"5,200",23,4,<1,3,7,13.4,6.1,<0.5,0.3,Negative
L-2,102,2024-02-03,2024-02-08,"3,100",15,2,1,2,5,12.9,7.7,1.2,0.1,Negative
`,
    kind: 'samples',
    accepted: 2,
    holds: [
      [0, 'iron_ppm', 23],
      [0, 'oil_km', 8368.5888],
      [1, 'fuel_percent', 1.2],
      [0, 'glycol', 0],
    ],
  },
  {
    name: 'Ölanalysen.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Probenahme;Laufleistung Öl (km);Eisen;Kupfer;Blei;Aluminium;Silizium;Viskosität 100°C;Viskosität 40°C;Wasser %
101;20.01.2024;8.400;24;5;1;3;8;13,4;88,2;0,02
102;03.02.2024;5.100;14;2;0;2;5;12,8;84,0;0,01
`,
    kind: 'samples',
    accepted: 2,
    holds: [
      [0, 'oil_km', 8400],
      [0, 'kv100_mm2_s', 13.4],
      [1, 'iron_ppm', 14],
    ],
  },
  {
    name: 'analyses huile.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Véhicule\tDate prélèvement\tFer (ppm)\tCuivre (ppm)\tPlomb (ppm)\tAluminium (ppm)\tSilicium (ppm)\tViscosité 100 °C\tTBN
101\t20/01/2024\t22\t4\t1\t3\t6\t13,2\t6,4
102\t28/01/2024\t12\t2\t1\t2\t4\t12,7\t8,0
`,
    kind: 'samples',
    accepted: 2,
    holds: [
      [0, 'sampled_on', '2024-01-20'],
      [0, 'iron_ppm', 22],
      [1, 'base_number_mg_koh_g', 8],
    ],
  },
  {
    name: 'oil lab.xlsx',
    sheets: [
      {
        name: 'Results',
        merged: ['A1:G1'],
        rows: [
          ['Used oil results', null, null, null, null, null, null],
          ['Asset', 'Date sampled', 'Iron', 'Copper', 'Silicon', 'KV100', 'Soot'],
          [null, null, 'ppm', 'ppm', 'ppm', 'cSt', '%'],
          ['101', 45311, 25, 4, 7, 13.1, 0.4],
          ['102', 45325, 16, 3, 5, 12.6, 0.2],
        ],
      },
    ],
    kind: 'samples',
    accepted: 2,
    holds: [
      [0, 'sampled_on', '2024-01-20'],
      [1, 'soot_percent', 0.2],
    ],
  },
  {
    name: 'muestras.txt',
    text: `Unidad|Fecha de muestra|Hierro ppm|Cobre ppm|Plomo ppm|Silicio ppm|Viscosidad 100C
101|20/01/2024|21|4|1|6|13,0
102|18/02/2024|13|2|1|4|12,5
`,
    kind: 'samples',
    accepted: 2,
    holds: [
      [0, 'iron_ppm', 21],
      [0, 'kv100_mm2_s', 13],
    ],
  },
];
