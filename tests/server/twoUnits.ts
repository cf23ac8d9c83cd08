/** Months from January 2021 to May 2024 at 2 000 km and 60 h each. */
function readings(): string {
  const lines = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  for (const unit of ['P1', 'P2'])
    for (let month = 0; month < 41; month += 1)
      lines.push(
        `${unit},${2021 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}-01,${2000 * month},${60 * month},${10 * month}`,
      );
  return `${lines.join('\n')}\n`;
}

/**
 * Two units whose renewals are worked by hand: P1 parts 412.35 and 4 h at 90.00 = 772.35; P2 parts 310.80 and 3.5 h at
 * 90.00 = 625.80; together 1 398.15, of it labour 675.00; downtime 1 day at 200.00 and 2 days at 150.00.
 */
export const twoUnits: Readonly<Record<string, string>> = {
  'sites.csv': 'site,bays,technicians,hours_per_day,labour_rate_per_hour\nMillbank,2,2,8,90\n',
  'engines.csv': `engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,timing_drive,interference,planned_hours,planned_parts_cost,planned_downtime_days,downtime_cost_per_day,unplanned_cost,unplanned_downtime_days
Garth 25,2.5,GDI,5.5,5W-30,API SP,8000,12,chain,yes,4,412.35,1,200,9000,10
Tarn 20,2.0,GDI,5,5W-30,API SP,8000,12,chain,yes,3.5,310.80,2,150,7000,8
`,
  'units.csv': `unit_number,site,duty,engine_family,in_service_on,in_service_odometer_km,status
P1,Millbank,patrol,Garth 25,2021-01-01,0,active
P2,Millbank,patrol,Tarn 20,2021-01-01,0,active
`,
  'readings.csv': readings(),
  'service.csv': `unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l
P1,2023-01-10,48600,oil_change,5W-30,API SP,5.5
P2,2023-01-10,48600,oil_change,5W-30,API SP,5
`,
};
