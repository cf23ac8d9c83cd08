/** Dated records: readings, fuel, service, samples, findings, codes, blackouts. Frozen text: a later change is a later migration. */
export const historyTables = `
CREATE TABLE readings (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  read_on TEXT NOT NULL CHECK (read_on GLOB '????-??-??'),
  odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 5000000),
  engine_hours_h REAL CHECK (engine_hours_h BETWEEN 0 AND 200000),
  idle_hours_h REAL CHECK (idle_hours_h BETWEEN 0 AND 200000),
  pto_hours_h REAL CHECK (pto_hours_h BETWEEN 0 AND 200000),
  fuel_l REAL CHECK (fuel_l BETWEEN 0 AND 5000000),
  starts REAL CHECK (starts BETWEEN 0 AND 1000000),
  short_trip_share REAL CHECK (short_trip_share BETWEEN 0 AND 1),
  towing_share REAL CHECK (towing_share BETWEEN 0 AND 1),
  ambient_c REAL CHECK (ambient_c BETWEEN -60 AND 60),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX readings_file ON readings (file_id);
CREATE INDEX readings_record ON readings (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX readings_unit ON readings (unit_number);

CREATE TABLE fuel (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  filled_on TEXT NOT NULL CHECK (filled_on GLOB '????-??-??'),
  odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 5000000),
  fuel_l REAL CHECK (fuel_l BETWEEN 0 AND 3000),
  fuel TEXT,
  site TEXT,
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX fuel_file ON fuel (file_id);
CREATE INDEX fuel_record ON fuel (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX fuel_unit ON fuel (unit_number);

CREATE TABLE service (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  serviced_on TEXT NOT NULL CHECK (serviced_on GLOB '????-??-??'),
  odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 5000000),
  engine_hours_h REAL CHECK (engine_hours_h BETWEEN 0 AND 200000),
  idle_hours_h REAL CHECK (idle_hours_h BETWEEN 0 AND 200000),
  work TEXT NOT NULL,
  oil_grade TEXT,
  oil_category TEXT,
  oil_l REAL CHECK (oil_l BETWEEN 0 AND 200),
  filter_changed INTEGER CHECK (filter_changed IN (0, 1)),
  cost INTEGER CHECK (cost >= 0),
  shop TEXT,
  note TEXT,
  outcome TEXT CHECK (outcome IN ('planned', 'failed')),
  bank TEXT,
  part_revision TEXT,
  paid_by TEXT,
  labour_hours_h REAL CHECK (labour_hours_h BETWEEN 0 AND 1000),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX service_file ON service (file_id);
CREATE INDEX service_record ON service (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX service_unit ON service (unit_number);

CREATE TABLE samples (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  sampled_on TEXT NOT NULL CHECK (sampled_on GLOB '????-??-??'),
  odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 5000000),
  oil_km REAL CHECK (oil_km BETWEEN 0 AND 300000),
  kv100_mm2_s REAL CHECK (kv100_mm2_s BETWEEN 1 AND 100),
  kv40_mm2_s REAL CHECK (kv40_mm2_s BETWEEN 2 AND 2000),
  base_number_mg_koh_g REAL CHECK (base_number_mg_koh_g BETWEEN 0 AND 100),
  acid_number_mg_koh_g REAL CHECK (acid_number_mg_koh_g BETWEEN 0 AND 100),
  fuel_percent REAL CHECK (fuel_percent BETWEEN 0 AND 100),
  soot_percent REAL CHECK (soot_percent BETWEEN 0 AND 100),
  oxidation_a_cm REAL CHECK (oxidation_a_cm BETWEEN 0 AND 500),
  nitration_a_cm REAL CHECK (nitration_a_cm BETWEEN 0 AND 500),
  water_percent REAL CHECK (water_percent BETWEEN 0 AND 100),
  glycol INTEGER CHECK (glycol IN (0, 1)),
  iron_ppm REAL CHECK (iron_ppm BETWEEN 0 AND 100000),
  copper_ppm REAL CHECK (copper_ppm BETWEEN 0 AND 100000),
  lead_ppm REAL CHECK (lead_ppm BETWEEN 0 AND 100000),
  aluminium_ppm REAL CHECK (aluminium_ppm BETWEEN 0 AND 100000),
  silicon_ppm REAL CHECK (silicon_ppm BETWEEN 0 AND 100000),
  oil_hours_h REAL CHECK (oil_hours_h BETWEEN 0 AND 20000),
  lab_number TEXT,
  reported_on TEXT CHECK (reported_on GLOB '????-??-??'),
  base_number_method TEXT,
  sodium_ppm REAL CHECK (sodium_ppm BETWEEN 0 AND 100000),
  potassium_ppm REAL CHECK (potassium_ppm BETWEEN 0 AND 100000),
  calcium_ppm REAL CHECK (calcium_ppm BETWEEN 0 AND 100000),
  magnesium_ppm REAL CHECK (magnesium_ppm BETWEEN 0 AND 100000),
  zinc_ppm REAL CHECK (zinc_ppm BETWEEN 0 AND 100000),
  phosphorus_ppm REAL CHECK (phosphorus_ppm BETWEEN 0 AND 100000),
  boron_ppm REAL CHECK (boron_ppm BETWEEN 0 AND 100000),
  molybdenum_ppm REAL CHECK (molybdenum_ppm BETWEEN 0 AND 100000),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX samples_file ON samples (file_id);
CREATE INDEX samples_record ON samples (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX samples_unit ON samples (unit_number);

CREATE TABLE findings (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  found_on TEXT NOT NULL CHECK (found_on GLOB '????-??-??'),
  odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 5000000),
  finding TEXT NOT NULL,
  value TEXT,
  note TEXT,
  bank TEXT,
  soak_h REAL CHECK (soak_h BETWEEN 0 AND 10000),
  engine_rpm REAL CHECK (engine_rpm BETWEEN 0 AND 10000),
  oil_temperature_c REAL CHECK (oil_temperature_c BETWEEN -60 AND 250),
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX findings_file ON findings (file_id);
CREATE INDEX findings_record ON findings (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX findings_unit ON findings (unit_number);

CREATE TABLE codes (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  seen_on TEXT NOT NULL CHECK (seen_on GLOB '????-??-??'),
  code TEXT NOT NULL,
  status TEXT,
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX codes_file ON codes (file_id);
CREATE INDEX codes_record ON codes (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX codes_unit ON codes (unit_number);

CREATE TABLE blackouts (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  known_on TEXT,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL,
  unit_number TEXT NOT NULL,
  "from" TEXT,
  "to" TEXT,
  reason TEXT,
  record_id TEXT,
  recorded_on TEXT CHECK (recorded_on GLOB '????-??-??'),
  work_order TEXT
) STRICT;
CREATE INDEX blackouts_file ON blackouts (file_id);
CREATE INDEX blackouts_record ON blackouts (record_id) WHERE record_id IS NOT NULL;
CREATE INDEX blackouts_unit ON blackouts (unit_number);
`;
