import type { ForeignFile } from './foreignFile.ts';

/** Master data and the shop's own lists. */
export const otherFiles: readonly ForeignFile[] = [
  {
    name: 'engine list.csv',
    text: `Engine family,Displacement (L),Fuel system,Sump (qt),Oil grade,Drain interval (mi),Timing drive
N4,2.0,GDI,5.5 qt,5W-30,"7,500",chain
N6,3.5,PFI,6 qt,0W-20,"5,000",belt
`,
    kind: 'engines',
    accepted: 2,
    holds: [
      [0, 'book_interval_km', 12070.08],
      [1, 'sump_l', 5.678117676],
    ],
  },
  {
    name: 'Motoren.csv',
    encoding: 'windows-1252',
    text: `Motorfamilie;Hubraum (l);Ölmenge (l);Wechselintervall (km);Steuertrieb
N8;2,0;5,2;15.000;Kette
N9;1,6;4,1;20.000;Zahnriemen
`,
    kind: 'engines',
    accepted: 2,
    holds: [
      [0, 'sump_l', 5.2],
      [0, 'book_interval_km', 15000],
    ],
  },
  {
    name: 'engine book.xlsx',
    sheets: [
      {
        name: 'Engines',
        rows: [
          ['Engines in the fleet'],
          ['Engine family', 'Displacement', 'Sump', 'Book interval', 'Timing drive'],
          [null, 'L', 'L', 'km', null],
          ['N10', 2.2, 6.5, 15000, 'chain'],
        ],
      },
    ],
    kind: 'engines',
    accepted: 1,
    holds: [[0, 'sump_l', 6.5]],
  },
  {
    name: 'moteurs.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Famille moteur\tCylindrée (l)\tCapacité huile (l)\tIntervalle vidange (km)\nN11\t1,5\t4,5\t20 000\n`,
    kind: 'engines',
    accepted: 1,
    holds: [[0, 'sump_l', 4.5]],
  },
  {
    name: 'motores.txt',
    text: `Familia de motor|Cilindrada (l)|Capacidad de aceite (l)|Intervalo de cambio (km)\nN12|2,4|5,7|10.000\n`,
    kind: 'engines',
    accepted: 1,
    holds: [[0, 'book_interval_km', 10000]],
  },
  {
    name: 'depots.csv',
    text: `Depot;Bays;Technicians;Hours per day;Working days\nHarbour;3;4;8;mon-fri\nHill;1;2;8,5;mon,tue,sat\n`,
    kind: 'sites',
    accepted: 2,
    holds: [
      [0, 'bays', 3],
      [1, 'hours_per_day', 8.5],
    ],
  },
  {
    name: 'Standorte.csv',
    encoding: 'windows-1252',
    text: `Standort;Arbeitsplätze;Mechaniker;Stunden pro Tag\nNord;2;3;8\nSüd;1;1;7,5\n`,
    kind: 'sites',
    accepted: 2,
    holds: [[1, 'hours_per_day', 7.5]],
  },
  {
    name: 'technicians roster.csv',
    lineEnd: '\r',
    text: `Technician,Depot,Skills,Hours per day\nT. One,Harbour,timing,8\nT. Two,Hill,,7.5\n`,
    kind: 'technicians',
    accepted: 2,
    holds: [[1, 'hours_per_day', 7.5]],
  },
  {
    name: 'Mechaniker.csv',
    encoding: 'windows-1252',
    text: `Mechaniker;Standort;Stunden pro Tag\nA. Eins;Nord;8\nB. Zwei;Süd;7,5\n`,
    kind: 'technicians',
    accepted: 2,
    holds: [[0, 'site', 'Nord']],
  },
  {
    name: 'parts stock.csv',
    text: `Item,Site,On hand,Lead time (days),Unit cost\noil filter,Harbour,12,3,"$1,008.40"\nchain kit,Harbour,0,21,$412.00\n`,
    kind: 'stock',
    accepted: 2,
    holds: [
      [0, 'unit_cost', 100840],
      [1, 'lead_time_days', 21],
    ],
  },
  {
    name: 'Lager.csv',
    encoding: 'windows-1252',
    text: `Artikel;Standort;Bestand;Lieferzeit (Tage);Stückpreis\nÖlfilter;Nord;8;2;9,90 €\nKettensatz;Nord;1;14;389,00 €\n`,
    kind: 'stock',
    accepted: 2,
    holds: [[1, 'unit_cost', 38900]],
  },
  {
    name: 'blackouts spring.csv',
    text: `Unit,From,To,Reason\n101,2024-07-01,2024-07-14,harvest\n102,2024-08-01,2024-08-03,rally\n`,
    kind: 'blackouts',
    accepted: 2,
    holds: [[0, 'reason', 'harvest']],
  },
  {
    name: 'Sperrzeiten.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Von;Bis;Grund\n101;15.07.2024;28.07.2024;Ernte\n102;01.08.2024;03.08.2024;Messe\n`,
    kind: 'blackouts',
    accepted: 2,
    holds: [[0, 'to', '2024-07-28']],
  },
];
