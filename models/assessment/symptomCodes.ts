import { readCode } from '../intake/codeText.ts';
import type { FaultCodes, FaultGroup } from '../wear/faultCode.ts';

/** Codes that speak of the same thing, with what to do about them. */
export interface CodeGroup {
  readonly title: string;
  readonly advice: string;
  readonly codes: readonly { readonly code: string; readonly words: string }[];
}

interface Place {
  readonly title: string;
  readonly advice: string;
  readonly groups: readonly FaultGroup[];
}

/** In the order in which they are dealt with. */
const places: readonly Place[] = [
  {
    title: 'Oil pressure',
    advice: 'Stop the engine and verify with a mechanical gauge.',
    groups: ['pressure_low'],
  },
  {
    title: 'Crank sensor: rule this out first',
    advice: 'Until sensor, tone ring and wiring are ruled out, a correlation code says nothing of the chain.',
    groups: ['crank_sensor'],
  },
  {
    title: 'Electrical: sensors, circuits, wiring',
    advice: 'Connectors, wiring and the sensor or solenoid coil first; these codes do not speak of wear.',
    groups: ['cam_sensor', 'actuator_circuit', 'pressure_circuit'],
  },
  {
    title: 'Phaser and oil supply',
    advice: 'Level, grade, pressure and the screen come before the phaser itself.',
    groups: ['phaser'],
  },
  {
    title: 'Crank and cam disagree',
    advice: 'With sensors ruled out: chain, tensioner, guides or a phaser that does not park.',
    groups: ['chain_phase'],
  },
];

/** The codes of a typed line, as they were written. */
export function typedCodes(text: string): readonly string[] {
  return text
    .split(/[,;\n]+|\s+(?=[PBCU])/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** Codes by what they speak of, electrical ones apart from mechanical ones; those the catalog does not know stand last. */
export function codesInOrder(codes: readonly string[], faultCodes: FaultCodes): readonly CodeGroup[] {
  const read = [...new Set(codes.map((code) => readCode(code)).filter((code) => code !== null))];
  const found = places.map(({ title, advice, groups }): CodeGroup => ({
    title,
    advice,
    codes: read.flatMap((code) => {
      const entry = faultCodes.get(code);
      return entry !== undefined && groups.includes(entry.group) ? [{ code, words: entry.words }] : [];
    }),
  }));
  const unknown = read.filter((code) => !faultCodes.has(code));
  return [
    ...found,
    {
      title: 'Other codes',
      advice: 'They say nothing of oil, phaser or chain here; they are kept with the unit all the same.',
      codes: unknown.map((code) => ({ code, words: 'not in this catalog' })),
    },
  ].filter((group) => group.codes.length > 0);
}
