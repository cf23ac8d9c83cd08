/** A fault put into a demo file on purpose. */
export interface PlantedFault {
  readonly file: string;
  /** line of the file, header = 1 */
  readonly line: number;
  readonly fault:
    | 'odometer_back'
    | 'future_date'
    | 'unknown_unit'
    | 'impossible_share'
    | 'impossible_date'
    | 'impossible_amount'
    | 'idle_above_engine_hours'
    | 'missing_unit'
    | 'duplicate';
}

interface Edit {
  readonly file: string;
  readonly fault: PlantedFault['fault'];
  /** share of the way through the file where the line goes in */
  readonly at: number;
  /** makes the faulty line from the line that stands there, by column name; null: the same line again */
  readonly change: Readonly<Record<string, string>> | null;
}

const edits: readonly Edit[] = [
  edit('readings.csv', 'odometer_back', 0.31, { odometer_km: '4' }),
  edit('readings.csv', 'odometer_back', 0.82, { odometer_km: '11' }),
  edit('readings.csv', 'future_date', 0.64, { read_on: '2062-05-14' }),
  edit('readings.csv', 'unknown_unit', 0.52, { unit_number: '9917' }),
  edit('readings.csv', 'idle_above_engine_hours', 0.44, { idle_hours_h: '88000.5' }),
  edit('readings.csv', 'missing_unit', 0.71, { unit_number: '' }),
  edit('readings_north.csv', 'impossible_date', 0.4, { read_on: '2025-02-30' }),
  edit('service.csv', 'unknown_unit', 0.58, { unit_number: '33O7' }),
  edit('service.csv', 'impossible_amount', 0.36, { oil_l: '570' }),
  edit('findings.csv', 'impossible_share', 0.5, { finding: 'screen_blocked_share', value: '40' }),
  edit('fuel.csv', 'future_date', 0.77, { filled_on: '2062-03-02' }),
  ...[0.11, 0.23, 0.37, 0.49, 0.66, 0.74, 0.88].map((at) => edit('readings.csv', 'duplicate', at, null)),
  ...[0.27, 0.61].map((at) => edit('readings_north.csv', 'duplicate', at, null)),
  ...[0.19, 0.55, 0.83].map((at) => edit('service.csv', 'duplicate', at, null)),
];

function edit(file: string, fault: Edit['fault'], at: number, change: Edit['change']): Edit {
  return { file, fault, at, change };
}

/** Puts the faults into the files; each is a new line, so every true line stays. */
export function plantFaults(files: Readonly<Record<string, string>>): {
  files: Record<string, string>;
  faults: readonly PlantedFault[];
} {
  const result: Record<string, string> = { ...files };
  const faults: PlantedFault[] = [];
  for (const name of Object.keys(files)) {
    const lines = files[name]!.trimEnd().split('\n');
    const header = lines[0]!.split(',');
    const mine = edits
      .filter((entry) => entry.file === name)
      .map((entry) => ({
        ...entry,
        line: 1 + Math.floor(entry.at * (lines.length - 1)),
      }));
    mine.sort((a, b) => a.line - b.line);
    let added = 0;
    for (const { line, fault, change } of mine) {
      const source = plainLine(lines, line + added);
      lines.splice(source + 1, 0, changed(lines[source]!, header, change));
      faults.push({ file: name, line: source + 2, fault });
      added++;
    }
    result[name] = lines.join('\n') + '\n';
  }
  return { files: result, faults };
}

/** The first line from `from` on without quoted cells, so that commas separate cells. */
function plainLine(lines: readonly string[], from: number): number {
  let line = from;
  while (lines[line]!.includes('"')) line++;
  return line;
}

function changed(line: string, header: readonly string[], change: Edit['change']): string {
  if (change === null) return line;
  const cells = line.split(',');
  for (const [name, value] of Object.entries(change)) {
    const place = header.indexOf(name);
    if (place < 0) throw new Error(`faults: column must be in the file, got ${name}`);
    cells[place] = value;
  }
  return cells.join(',');
}
