import { compileSecondReader, workWeightsFile, type SecondReader } from '../models/intake/workSecond.ts';
import { readWork, taughtKey, type TaughtWorks } from '../models/intake/workText.ts';
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
const mostTexts = 400_000;

type ReadText = (text: string) => WorkRead;

/** One object for all texts that read alike, which are most: what is kept of a text is little more than the text. */
function sharing(read: ReadText): ReadText {
  const shared = new Map<string, WorkRead>();
  return (text) => {
    const result = read(text);
    const key = JSON.stringify(result);
    const same = shared.get(key);
    if (same !== undefined) return same;
    if (shared.size >= mostTexts) shared.clear();
    shared.set(key, result);
    return result;
  };
}

function readOnce(read: ReadText): ReadText {
  const known = new Map<string, WorkRead>();
  return (text) => {
    const earlier = known.get(text);
    if (earlier !== undefined) return earlier;
    const result = read(text);
    if (known.size >= mostTexts) known.clear();
    known.set(text, result);
    return result;
  };
}

/** Texts as they are read where nobody taught them. */
const readUntaught = readOnce(sharing((text) => readWork(text, words(), undefined, second())));

/**
 * Makes a reader of work texts; each distinct text is read once in the life of the program.
 * @param taught texts that people have taught
 */
export function workReader(taught: TaughtWorks = new Map()): ReadText {
  if (taught.size === 0) return readUntaught;
  return readOnce((text) =>
    taught.has(taughtKey(text)) ? readWork(text, words(), taught, second()) : readUntaught(text),
  );
}
