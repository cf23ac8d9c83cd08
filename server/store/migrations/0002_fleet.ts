/** Master data: engines, sites, units, people, stock. Frozen text: a later change is a later migration. */
export const fleetTables = `
CREATE TABLE engines (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  engine_family TEXT NOT NULL,
  displacement_l REAL CHECK (displacement_l BETWEEN 0.2 AND 30),
  fuel_system TEXT CHECK (fuel_system IN ('PFI', 'GDI', 'TGDI', 'diesel', 'gas')),
  sump_l REAL CHECK (sump_l BETWEEN 1 AND 100),
  required_grade TEXT,
  required_category TEXT,
  book_interval_km REAL CHECK (book_interval_km BETWEEN 500 AND 200000),
  book_interval_months REAL CHECK (book_interval_months BETWEEN 1 AND 60),
  hours_limit_h REAL CHECK (hours_limit_h BETWEEN 20 AND 5000),
  timing_drive TEXT CHECK (timing_drive IN ('chain', 'silent_chain', 'belt', 'wet_belt', 'gear')),
  chain_pitch_mm REAL CHECK (chain_pitch_mm BETWEEN 3 AND 30),
  cam_sprocket_teeth REAL CHECK (cam_sprocket_teeth BETWEEN 10 AND 120),
  tight_strand_mm REAL CHECK (tight_strand_mm BETWEEN 20 AND 3000),
  phasers REAL CHECK (phasers BETWEEN 0 AND 8),
  interference INTEGER CHECK (interference IN (0, 1)),
  planned_hours REAL CHECK (planned_hours BETWEEN 0 AND 500),
  planned_parts_cost INTEGER CHECK (planned_parts_cost >= 0),
  unplanned_cost INTEGER CHECK (unplanned_cost >= 0),
  unplanned_downtime_days REAL CHECK (unplanned_downtime_days BETWEEN 0 AND 400),
  book_severe_interval_km REAL CHECK (book_severe_interval_km BETWEEN 500 AND 200000),
  book_severe_interval_months REAL CHECK (book_severe_interval_months BETWEEN 1 AND 60),
  crank_sprocket_teeth REAL CHECK (crank_sprocket_teeth BETWEEN 8 AND 80),
  chain_limit_percent REAL CHECK (chain_limit_percent BETWEEN 0.05 AND 5),
  planned_downtime_days REAL CHECK (planned_downtime_days BETWEEN 0 AND 400),
  downtime_cost_per_day INTEGER CHECK (downtime_cost_per_day >= 0),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX engines_file ON engines (file_id);
CREATE INDEX engines_record ON engines (record_id) WHERE record_id IS NOT NULL;

CREATE TABLE sites (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  site TEXT NOT NULL,
  bays REAL CHECK (bays BETWEEN 0 AND 500),
  technicians REAL CHECK (technicians BETWEEN 0 AND 1000),
  hours_per_day REAL CHECK (hours_per_day BETWEEN 0 AND 24),
  weekdays TEXT,
  mean_temperature_jan_c REAL CHECK (mean_temperature_jan_c BETWEEN -60 AND 60),
  mean_temperature_feb_c REAL CHECK (mean_temperature_feb_c BETWEEN -60 AND 60),
  mean_temperature_mar_c REAL CHECK (mean_temperature_mar_c BETWEEN -60 AND 60),
  mean_temperature_apr_c REAL CHECK (mean_temperature_apr_c BETWEEN -60 AND 60),
  mean_temperature_may_c REAL CHECK (mean_temperature_may_c BETWEEN -60 AND 60),
  mean_temperature_jun_c REAL CHECK (mean_temperature_jun_c BETWEEN -60 AND 60),
  mean_temperature_jul_c REAL CHECK (mean_temperature_jul_c BETWEEN -60 AND 60),
  mean_temperature_aug_c REAL CHECK (mean_temperature_aug_c BETWEEN -60 AND 60),
  mean_temperature_sep_c REAL CHECK (mean_temperature_sep_c BETWEEN -60 AND 60),
  mean_temperature_oct_c REAL CHECK (mean_temperature_oct_c BETWEEN -60 AND 60),
  mean_temperature_nov_c REAL CHECK (mean_temperature_nov_c BETWEEN -60 AND 60),
  mean_temperature_dec_c REAL CHECK (mean_temperature_dec_c BETWEEN -60 AND 60),
  time_zone TEXT,
  opens_at TEXT,
  labour_rate_per_hour INTEGER CHECK (labour_rate_per_hour >= 0),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX sites_file ON sites (file_id);
CREATE INDEX sites_record ON sites (record_id) WHERE record_id IS NOT NULL;

CREATE TABLE units (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  vin TEXT,
  description TEXT,
  site TEXT,
  duty TEXT,
  engine_family TEXT,
  in_service_on TEXT CHECK (in_service_on GLOB '????-??-??'),
  in_service_odometer_km REAL CHECK (in_service_odometer_km BETWEEN 0 AND 5000000),
  planned_disposal_on TEXT CHECK (planned_disposal_on GLOB '????-??-??'),
  status TEXT CHECK (status IN ('active', 'retired')),
  powertrain TEXT CHECK (powertrain IN ('engine', 'hybrid')),
  acquired_on TEXT CHECK (acquired_on GLOB '????-??-??'),
  acquired_odometer_km REAL CHECK (acquired_odometer_km BETWEEN 0 AND 5000000),
  disposed_on TEXT CHECK (disposed_on GLOB '????-??-??'),
  disposal_reason TEXT,
  warranty_until_on TEXT CHECK (warranty_until_on GLOB '????-??-??'),
  warranty_until_km REAL CHECK (warranty_until_km BETWEEN 0 AND 5000000),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX units_file ON units (file_id);
CREATE INDEX units_record ON units (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX units_number ON units (unit_number);

CREATE TABLE technicians (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  technician TEXT NOT NULL,
  site TEXT,
  skills TEXT,
  hours_per_day REAL CHECK (hours_per_day BETWEEN 0 AND 24),
  away_from TEXT CHECK (away_from GLOB '????-??-??'),
  away_to TEXT CHECK (away_to GLOB '????-??-??'),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX technicians_file ON technicians (file_id);
CREATE INDEX technicians_record ON technicians (record_id) WHERE record_id IS NOT NULL;

CREATE TABLE stock (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  item TEXT NOT NULL,
  site TEXT,
  on_hand REAL CHECK (on_hand >= 0),
  lead_time_days REAL CHECK (lead_time_days BETWEEN 0 AND 2000),
  unit_cost INTEGER CHECK (unit_cost >= 0),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX stock_file ON stock (file_id);
CREATE INDEX stock_record ON stock (record_id) WHERE record_id IS NOT NULL;
`;
