import { compileSecondReader, workWeightsFile, type SecondReader } from '../models/intake/workSecond.ts';
import { readWork, type TaughtWorks } from '../models/intake/workText.ts';
import { compileWorkWords, workWordsFile, type WorkWords } from '../models/intake/workWords.ts';
import type { WorkRead } from '../models/schema/history.ts';
import weights from '../data/catalog/work-weights.json';
import file from '../data/catalog/work-words.json';

let made: WorkWords | null = null;
let learned: SecondReader | null = null;

function words(): WorkWords {
  made ??= compileWorkWords(workWordsFile.parse(file));
  return made;
}

function second(): SecondReader {
  learned ??= compileSecondReader(workWeightsFile.parse(weights));
  return learned;
}

/** Beyond so many distinct texts what was read is forgotten, so that memory stays bounded. */
const mostTexts = 100_000;

/**
 * Makes a reader of work texts that reads each distinct text once.
 * @param taught texts that people have taught
 */
export function workReader(taught: TaughtWorks = new Map()): (text: string) => WorkRead {
  const read = new Map<string, WorkRead>();
  return (text) => {
    const known = read.get(text);
    if (known !== undefined) return known;
    const result = readWork(text, words(), taught, second());
    if (read.size >= mostTexts) read.clear();
    read.set(text, result);
    return result;
  };
}
