import type { ForeignFile } from './foreignFile.ts';

export const fuelFiles: readonly ForeignFile[] = [
  {
    name: 'card transactions march.csv',
    lineEnd: '\r\n',
    text: `Card No,Vehicle No,Transaction Date,Odometer (mi),Product,Gallons,Amount,Merchant
****1001,101,03/15/2024,"52,310",Diesel,21.4,$84.10,Station 12
****1002,102,03/16/2024,"7,455",Diesel,18.0,$70.75,Station 9
****1001,101,03/28/2024,"52,980",Diesel,20.9,$82.00,Station 12
`,
    kind: 'fuel',
    accepted: 3,
    holds: [
      [0, 'filled_on', '2024-03-15'],
      [0, 'fuel_l', 81.0078122],
      [1, 'odometer_km', 11997.65952],
    ],
  },
  {
    name: 'Tankabrechnung.csv',
    encoding: 'windows-1252',
    text: `Kennzeichen;Belegdatum;Kilometerstand;Menge (Liter);Produkt;Betrag EUR
101;03.03.2024;84.300;72,35;Diesel;118,50 €
102;05.03.2024;12.050;55,10;Diesel;90,20 €
Summe;;;127,45;;208,70 €
`,
    kind: 'fuel',
    accepted: 2,
    rejected: 1,
    holds: [
      [0, 'fuel_l', 72.35],
      [1, 'odometer_km', 12050],
    ],
  },
  {
    name: 'carburant.txt',
    text: `Immatriculation|Date|Litres|Kilométrage|Carburant
101|12/03/2024|65,2|84 500|Gazole
102|25/03/2024|48,0|12 300|Gazole
`,
    kind: 'fuel',
    accepted: 2,
    holds: [
      [0, 'filled_on', '2024-03-12'],
      [0, 'fuel_l', 65.2],
    ],
  },
  {
    name: 'fuel book.xlsx',
    sheets: [
      {
        name: 'Fills',
        merged: ['A1:D1'],
        rows: [
          ['Yard pump', null, null, null],
          ['Date', 'Unit', 'Qty (L)', 'Odometer (km)'],
          [45352, '101', 70.5, 84250],
          [45354, '102', 40, 12030],
          ['Total', null, 110.5, null],
        ],
      },
    ],
    kind: 'fuel',
    accepted: 2,
    rejected: 1,
    holds: [
      [0, 'filled_on', '2024-03-01'],
      [1, 'fuel_l', 40],
    ],
  },
  {
    name: 'repostajes.tsv',
    encoding: 'utf-16le',
    mark: true,
    lineEnd: '\r\n',
    text: `Matrícula\tFecha\tKilómetros\tLitros\tCombustible
101\t14/03/2024\t84.620\t60,75\tGasóleo
102\t16/03/2024\t12.140\t45,00\tGasóleo
`,
    kind: 'fuel',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 84620],
      [0, 'fuel_l', 60.75],
    ],
  },
  {
    name: 'fuel_amounts.csv',
    text: `vehicle,fill date,quantity,fuel type\n101,2024-03-05,20.5,diesel\n102,2024-03-06,21.5,diesel\n`,
    kind: 'fuel',
    asks: ['volume_unit'],
  },
];
