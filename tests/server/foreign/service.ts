import type { ForeignFile } from './foreignFile.ts';

export const serviceFiles: readonly ForeignFile[] = [
  {
    name: 'shop invoices.csv',
    mark: true,
    lineEnd: '\r\n',
    text: `Invoice Date,Invoice #,Unit #,Mileage,Work Performed,Oil Qty,Total
01/15/2024,A100,101,"51,210 mi","LOF 15W-40, ""full"" PM-A",12 qt,"$1,184.50"
02/28/2024,A101,102,"7,020 mi",R&R OCV,,$310.00
`,
    kind: 'service',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 82414.50624],
      [0, 'cost', 118450],
      [0, 'oil_l', 11.356235352],
      [1, 'serviced_on', '2024-02-28'],
    ],
  },
  {
    name: 'Werkstattaufträge.csv',
    encoding: 'windows-1252',
    text: `Fahrzeug;Datum;KM-Stand;Arbeiten;Ölsorte;Ölmenge (l);Kosten
101;15.01.2024;82.400;Ölwechsel mit Filter;5W-30;6,5;189,90 €
102;20.02.2024;11.900;Öl nachgefüllt 1 l;5W-30;1,0;15,00 €
101;20.02.2024;83.900;Bremsbeläge vorne;;;1.240,00 €
`,
    kind: 'service',
    accepted: 3,
    holds: [
      [0, 'oil_l', 6.5],
      [2, 'cost', 124000],
      [0, 'oil_grade', '5W-30'],
    ],
  },
  {
    name: 'entretiens.tsv',
    encoding: 'utf-16le',
    mark: true,
    text: `Immatriculation\tDate intervention\tKilométrage\tTravaux effectués\tMontant HT
101\t18/01/2024\t82 700\tvidange + filtre à huile\t145,00
102\t09/02/2024\t11 600\tappoint huile 1 l\t12,50
`,
    kind: 'service',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 82700],
      [1, 'cost', 1250],
    ],
  },
  {
    name: 'service history.xlsx',
    sheets: [
      {
        name: 'Unit history',
        merged: ['A1:F1'],
        rows: [
          ['Service history, two trucks', null, null, null, null, null],
          [],
          ['Truck', 'Svc date', 'Odometer (mi)', 'Job description', 'Cost', 'Vendor'],
          ['101', 45311, 51300, 'oil & filter', 95.5, 'Corner shop'],
          [],
          ['Truck', 'Svc date', 'Odometer (mi)', 'Job description', 'Cost', 'Vendor'],
          ['102', 45325, 7000, 'PM-A', 40, 'Corner shop'],
          ['Grand total', null, null, null, 135.5, null],
        ],
      },
      { name: 'Notes', rows: [['Ask Kim about the second truck']] },
    ],
    kind: 'service',
    accepted: 2,
    rejected: 2,
    holds: [
      [0, 'serviced_on', '2024-01-20'],
      [0, 'odometer_km', 82559.3472],
      [1, 'cost', 4000],
    ],
  },
  {
    name: 'mantenimiento.txt',
    lineEnd: '\r',
    text: `Unidad|Fecha de servicio|Kilometraje|Trabajo realizado|Costo
101|22/01/2024|82.750|cambio de aceite y filtro|$ 1.850,00
102|13/02/2024|11.700|revisión general|$ 350,50
`,
    kind: 'service',
    accepted: 2,
    holds: [
      [0, 'odometer_km', 82750],
      [0, 'cost', 185000],
      [1, 'serviced_on', '2024-02-13'],
    ],
  },
  {
    name: 'work orders.csv',
    text: `unit,service date,odometer (km),work\n101,04/02/2024,83000,LOF\n102,05/03/2024,12010,LOF\n`,
    kind: 'service',
    asks: ['date_order'],
  },
];
