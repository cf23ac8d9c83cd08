import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** How each unit is driven: first month, km and hours a month, drain every so many months. */
const rates: Readonly<
  Record<string, { from: string; kmPerMonth: number; every: number; hours: number | null; idle: number }>
> = {
  A1: { from: '2021-04-01', kmPerMonth: 1900, every: 4, hours: 95, idle: 30 },
  A2: { from: '2021-04-01', kmPerMonth: 1950, every: 4, hours: 98, idle: 33 },
  A3: { from: '2020-10-01', kmPerMonth: 3400, every: 4, hours: 52, idle: 3 },
  B1: { from: '2021-07-01', kmPerMonth: 1900, every: 5, hours: 150, idle: 90 },
  B2: { from: '2021-07-01', kmPerMonth: 2000, every: 5, hours: 160, idle: 95 },
  B3: { from: '2019-06-01', kmPerMonth: 1500, every: 5, hours: null, idle: 0 },
  C1: { from: '2020-03-01', kmPerMonth: 1600, every: 6, hours: 60, idle: 12 },
  C2: { from: '2020-03-01', kmPerMonth: 1500, every: 6, hours: null, idle: 0 },
  C3: { from: '2022-02-01', kmPerMonth: 1300, every: 7, hours: null, idle: 0 },
  D1: { from: '2022-05-01', kmPerMonth: 500, every: 9, hours: null, idle: 0 },
};

/** Ten units of an invented haulier, written by hand in the own layout: what a new user would bring. */
export const ownFleet: Readonly<Record<string, string>> = {
  'sites.csv': `site,bays,technicians,hours_per_day,weekdays,mean_temperature_jan_c,mean_temperature_jul_c
Millbank,2,2,8,mon-fri,-4,22
Eastquay,1,1,8,"mon,tue,wed,thu",1,19
`,
  'engines.csv': `engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,hours_limit_h,timing_drive,chain_pitch_mm,cam_sprocket_teeth,tight_strand_mm,phasers,interference,planned_hours,planned_parts_cost,unplanned_cost,unplanned_downtime_days,book_severe_interval_km
Tarn 20,2.0,TGDI,5.0,5W-30,API SP,12000,12,,chain,8,36,300,2,yes,9,900,6200,8,6000
Holm 35,3.5,GDI,5.7,5W-20,API SP,10000,12,250,silent_chain,,,,4,yes,14,1500,9100,11,
Fell 22 D,2.2,diesel,7.0,5W-40,API CK-4,20000,12,400,belt,,,,no,yes,7,600,5200,9,10000
`,
  'units.csv': `unit_number,vin,description,site,duty,engine_family,in_service_on,in_service_odometer_km,status
A1,,van,Millbank,parcel delivery,Tarn 20,2021-03-01,10,active
A2,,van,Millbank,parcel delivery,Tarn 20,2021-03-05,12,active
A3,,van,Millbank,highway,Tarn 20,2020-09-10,8,active
B1,,patrol car,Eastquay,patrol,Holm 35,2021-06-01,15,active
B2,,patrol car,Eastquay,patrol,Holm 35,2021-06-01,15,active
B3,,pickup,Eastquay,towing,Holm 35,2019-05-20,20,active
C1,,crew van,Millbank,mixed works,Fell 22 D,2020-02-01,30,active
C2,,crew van,Millbank,mixed works,Fell 22 D,2020-02-01,30,active
C3,,crew van,Eastquay,,Fell 22 D,2022-01-10,5,active
D1,,pool car,Eastquay,short trips,,2022-04-01,0,active
`,
  'service.csv': serviceRows(),
  'readings.csv': readingRows(),
  'findings.csv': `unit_number,found_on,odometer_km,finding,value,note
B1,2024-01-15,59800,cover_view,moderate,
B1,2024-05-20,67700,screen_blocked_share,0.3,at the oil service
A3,2024-02-10,140600,cover_view,clean,
`,
  'codes.csv': `unit_number,seen_on,code,status
B2,2024-05-28,p0016,stored
A1,2024-03-02,P0420,stored
`,
  'samples.csv': `unit_number,sampled_on,odometer_km,oil_km,kv100_mm2_s,kv40_mm2_s,base_number_mg_koh_g,fuel_percent,soot_percent,iron_ppm,glycol
A2,2024-03-20,71500,5800,9.4,58,4.6,1.2,0.5,32,negative
B1,2024-01-15,59800,4200,8.1,47,3.9,2.8,0.4,55,no
`,
};

/** First days of the months from a start up to May 2024. */
function months(from: string): string[] {
  const list: string[] = [];
  let [year, month] = from.split('-').map(Number);
  while (year < 2024 || (year === 2024 && month <= 5)) {
    list.push(`${year}-${String(month).padStart(2, '0')}-01`);
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
  }
  return list;
}

function readingRows(): string {
  const lines = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  for (const [unit, rate] of Object.entries(rates))
    months(rate.from).forEach((on, index) => {
      const count = index + 1;
      lines.push(
        [
          unit,
          on,
          Math.round(count * rate.kmPerMonth + 40),
          rate.hours === null ? '' : count * rate.hours,
          rate.hours === null ? '' : count * rate.idle,
        ].join(','),
      );
    });
  return `${lines.join('\n')}\n`;
}

function serviceRows(): string {
  const lines = [
    'unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l,filter_changed,cost,outcome',
  ];
  const words = ['LOF', 'oil change and filter', '"PM-A service, oil + filter"', 'Oil & filter'];
  const grades: Record<string, string> = { A: '5W-30', B: '5W-20', C: '5W-40', D: '5W-30' };
  for (const [unit, rate] of Object.entries(rates))
    months(rate.from).forEach((on, index) => {
      const count = index + 1;
      if (count % rate.every === 0)
        lines.push(
          [
            unit,
            on.replace(/01$/, '12'),
            Math.round((count + 0.35) * rate.kmPerMonth + 40),
            words[count % words.length],
            grades[unit[0]],
            'API SP',
            '5.2',
            'yes',
            '68.50',
            '',
          ].join(','),
        );
    });
  lines.push('B3,2022-08-15,59100,R&R timing set both banks,,,,,7400,failed');
  lines.push('A1,2024-02-20,67700,top up 1 qt 5W-30,5W-30,,,,,');
  return `${lines.join('\n')}\n`;
}

/** Writes files into a new folder and returns their paths, in the order given. */
export function writeFiles(
  files: Readonly<Record<string, string | Uint8Array>>,
): { name: string; path: string }[] {
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-files-'));
  return Object.entries(files).map(([name, text]) => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return { name, path };
  });
}
