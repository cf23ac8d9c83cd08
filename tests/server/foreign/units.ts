import type { ForeignFile } from './foreignFile.ts';

export const unitFiles: readonly ForeignFile[] = [
  {
    name: 'Fahrzeugliste.csv',
    encoding: 'windows-1252',
    lineEnd: '\r\n',
    text: `Fahrzeug-Nr.;Fahrgestellnummer;Bezeichnung;Standort;Erstzulassung;Motorfamilie
W-11;;Kastenwagen groß;Nord;12.03.2021;M4
W-12;;Kastenwagen;Süd;01.10.2020;M4
W-13;;Pritsche;Nord;30.06.2019;M6
`,
    kind: 'units',
    accepted: 3,
    holds: [
      [0, 'in_service_on', '2021-03-12'],
      [0, 'description', 'Kastenwagen groß'],
      [1, 'site', 'Süd'],
    ],
  },
  {
    name: 'parc.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Immatriculation\tModèle\tAgence\tDate de mise en service\tType moteur
AA-101-ZZ\tfourgon\tOuest\t15 mars 2022\tM4
AA-102-ZZ\tfourgon\tEst\t2 août 2021\tM4
`,
    kind: 'units',
    accepted: 2,
    holds: [
      [0, 'in_service_on', '2022-03-15'],
      [1, 'in_service_on', '2021-08-02'],
    ],
  },
  {
    name: 'asset register.csv',
    lineEnd: '\r',
    text: `Asset No,Description,Depot,In Service Date,Starting Odometer (mi),Status
T201,Box truck,West,03/25/2020,"1,204 mi",In service
T202,Box truck,West,11/02/2021,12,In service
T203,Crew van,East,07/14/2018,0,Sold
`,
    kind: 'units',
    accepted: 3,
    holds: [
      [0, 'in_service_on', '2020-03-25'],
      [0, 'in_service_odometer_km', 1937.650176],
      [2, 'status', 'retired'],
    ],
  },
  {
    name: 'fleet book.xlsx',
    sheets: [
      {
        name: 'Fleet',
        merged: ['A1:E1'],
        rows: [
          ['Fleet as of spring', null, null, null, null],
          [],
          ['Unit', 'VIN', 'Engine', 'In service', 'Site'],
          ['X31', null, 'M4', 44197, 'North'],
          ['X32', null, 'M6', 44562, 'South'],
          [],
          ['Unit', 'VIN', 'Engine', 'In service', 'Site'],
          ['X33', null, 'M6', 44927, 'South'],
          ['Total: 3', null, null, null, null],
        ],
      },
    ],
    kind: 'units',
    accepted: 3,
    rejected: 2,
    holds: [
      [0, 'in_service_on', '2021-01-01'],
      [2, 'in_service_on', '2023-01-01'],
    ],
  },
  {
    name: 'vehiculos.txt',
    text: `Número económico|Descripción|Sucursal|Fecha de alta
E-1|Camioneta|Centro|05/04/2021
E-2|Camión|Norte|21/09/2020
`,
    kind: 'units',
    accepted: 2,
    holds: [[0, 'in_service_on', '2021-04-05']],
  },
  {
    name: 'units_open_dates.csv',
    text: `unit,in service date,engine\nQ1,03/04/2021,M4\nQ2,05/06/2021,M4\n`,
    kind: 'units',
    asks: ['date_order'],
  },
];
