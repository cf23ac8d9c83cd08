import type { ForeignFile } from './foreignFile.ts';

/** More of the shop's own lists: sites, people, shelves and days on which units can't be spared. */
export const shopListFiles: readonly ForeignFile[] = [
  {
    name: 'locations.tsv',
    text: `Location\tBays\tTechnicians\tHours per day\nQuarry\t2\t2\t9\nFerry\t1\t1\t8\n`,
    kind: 'sites',
    accepted: 2,
    holds: [[0, 'hours_per_day', 9]],
  },
  {
    name: 'garages.xlsx',
    sheets: [
      {
        name: 'Garages',
        rows: [
          ['Our garages', null, null],
          [],
          ['Garage', 'Bays', 'Technicians'],
          ['East', 3, 4],
          ['West', 1, 2],
        ],
        merged: ['A1:C1'],
      },
    ],
    kind: 'sites',
    accepted: 2,
    holds: [[0, 'technicians', 4]],
  },
  {
    name: 'sites.txt',
    encoding: 'utf-16le',
    mark: true,
    text: `site|bays|technicians|hours_per_day|weekdays\nSouth yard|2|3|7.5|mon-fri\n`,
    kind: 'sites',
    accepted: 1,
    holds: [[0, 'weekdays', 'mon-fri']],
  },
  {
    name: 'mecanicos.csv',
    text: `Mecánico;Sede;Horas por día\nC. Tres;Norte;8\nD. Cuatro;Sur;6,5\n`,
    kind: 'technicians',
    accepted: 2,
    holds: [[1, 'hours_per_day', 6.5]],
  },
  {
    name: 'staff.xlsx',
    sheets: [
      {
        name: 'Staff',
        rows: [
          ['Technician', 'Site', 'Hours per day', 'Away from', 'Away to'],
          ['E. Five', 'Quarry', 8, '2024-07-01', '2024-07-12'],
          ['F. Six', 'Ferry', 8, null, null],
        ],
      },
    ],
    kind: 'technicians',
    accepted: 2,
    holds: [[0, 'away_to', '2024-07-12']],
  },
  {
    name: 'techniciens.tsv',
    lineEnd: '\r\n',
    text: `Technicien\tSite\tHeures par jour\nG. Sept\tNord\t7,5\nG. Sept\tNord\t7,5\nH. Huit\tSud\t8\n`,
    kind: 'technicians',
    accepted: 2,
    duplicates: 1,
  },
  {
    name: 'inventory.tsv',
    text: `Item\tSite\tOn hand\tUnit cost\nphaser\tQuarry\t2\t184.50\noil filter\tQuarry\t30\t6.20\nTotal\t\t32\t\n`,
    kind: 'stock',
    accepted: 2,
    rejected: 1,
    holds: [[0, 'unit_cost', 18450]],
  },
  {
    name: 'existencias.csv',
    encoding: 'windows-1252',
    text: `Artículo;Sede;Existencias;Plazo de entrega (días);Precio unitario\nfiltro de aceite;Norte;14;2;5,80\ncadena;Norte;1;20;310,00\n`,
    kind: 'stock',
    accepted: 2,
    holds: [[1, 'lead_time_days', 20]],
  },
  {
    name: 'parts shelf.xlsx',
    sheets: [
      {
        name: 'Shelf',
        rows: [
          ['Item', 'Site', 'On hand', 'Lead time (days)'],
          ['tensioner', 'Ferry', 1, 9],
          ['solenoid', 'Ferry', 'many', 4],
        ],
      },
    ],
    kind: 'stock',
    accepted: 1,
    held: 1,
    holds: [[0, 'on_hand', 1]],
  },
  {
    name: 'indisponibilites.csv',
    text: `Véhicule;Du;Au;Motif\n101;01/07/2024;14/07/2024;moisson\n102;15/08/2024;20/08/2024;fête\n`,
    kind: 'blackouts',
    accepted: 2,
    holds: [[0, 'to', '2024-07-14']],
  },
  {
    name: 'bloqueos.tsv',
    text: `Unidad\tDesde\tHasta\tMotivo\n101\t2024-09-01\t2024-09-04\tcosecha\n999\t2024-09-01\t2024-09-04\tferia\n`,
    kind: 'blackouts',
    accepted: 1,
    held: 1,
  },
  {
    name: 'unavailable.xlsx',
    sheets: [
      {
        name: 'Unavailable',
        rows: [
          ['Unit', 'From', 'To', 'Reason'],
          ['102', '2024-10-02', '2024-10-03', 'inspection'],
        ],
      },
    ],
    kind: 'blackouts',
    accepted: 1,
    holds: [[0, 'reason', 'inspection']],
  },
];
