import wordsFile from '../../../../data/catalog/work-words.json';
import { compileWorkWords, workWordsFile } from '../../../../models/intake/workWords.ts';
import first from '../work-texts.json';
import second from '../workTexts.second.json';
import third from '../workTexts.third.json';
import fourth from '../workTexts.fourth.json';
import fifth from '../workTexts.fifth.json';
import sixth from '../workTexts.sixth.json';
import seventh from '../workTexts.seventh.json';
import eighth from '../workTexts.eighth.json';
import ninth from '../workTexts.ninth.json';
import tenth from '../workTexts.tenth.json';
import eleventh from '../workTexts.eleventh.json';
import twelfth from '../workTexts.twelfth.json';
import thirteenth from '../workTexts.thirteenth.json';
import fourteenth from '../workTexts.fourteenth.json';
import fifteenth from '../workTexts.fifteenth.json';
import sixteenth from '../workTexts.sixteenth.json';
import seventeenth from '../workTexts.seventeenth.json';
import eighteenth from '../workTexts.eighteenth.json';
import nineteenth from '../workTexts.nineteenth.json';
import twentieth from '../workTexts.twentieth.json';
import twentyFirst from '../workTexts.twentyFirst.json';
import twentySecond from '../workTexts.twentySecond.json';
import twentyThird from '../workTexts.twentyThird.json';
import type { ShopText } from './train.ts';

/** The catalog of words as the product reads it. */
export const catalog = workWordsFile.parse(wordsFile);
export const words = compileWorkWords(catalog);

/** The sets that the second reader learned from, each by its writer. */
export const learnedSets = {
  first,
  second,
  third,
  fourth,
  fifth,
  sixth,
  seventh,
  eighth,
  ninth,
  tenth,
  eleventh,
  twelfth,
  thirteenth,
  fourteenth,
  fifteenth,
  sixteenth,
  seventeenth,
  eighteenth,
  nineteenth,
  twentieth,
  twentyFirst,
  twentySecond,
  twentyThird,
} satisfies Readonly<Record<string, readonly ShopText[]>> as Readonly<Record<string, readonly ShopText[]>>;
