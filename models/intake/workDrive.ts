import type { Part } from './workSigns.ts';

/** Words of a timing drive that say neither chain nor belt. */
const openDrive = /distribu|rozrzad|^timing (kit|set|components|drive)$/;
const beltAlone = /^(belts?|riemen|courroie|correa|banda|correia|cinghia|riem|pasek|rem|curea)$/;
const chainWord = /chain|kette|chaine|cadena|corrente|catena|ketting|lancuch|kedja|kjede|kaede/;

const isTimingSet = ({ sign }: Part) =>
  (sign.is === 'thing' && sign.thing === 'timing_set') ||
  (sign.is === 'job' && sign.works.length === 1 && sign.works[0] === 'timing_set');

/** "Kit de distribución (correa)": the word that follows a mark says that the drive is a belt. */
export function settleDrive(parts: readonly Part[]): Part[] {
  if (parts.some(({ text }) => chainWord.test(text))) return [...parts];
  const out = [...parts];
  parts.forEach((part, at) => {
    const belt = parts[at + 2];
    const mark = parts[at + 1];
    if (!openDrive.test(part.text) || belt === undefined || !beltAlone.test(belt.text)) return;
    if (mark?.sign.is !== 'stop' && mark?.text !== ':') return;
    if (!isTimingSet(part)) {
      out[at + 2] = { ...belt, sign: { is: 'thing', thing: 'belt' } };
      return;
    }
    out[at] = {
      ...part,
      sign: part.sign.is === 'job' ? { ...part.sign, works: ['belt'] } : { is: 'thing', thing: 'belt' },
    };
    out[at + 2] = { ...belt, sign: { is: 'filler' } };
  });
  return out;
}
