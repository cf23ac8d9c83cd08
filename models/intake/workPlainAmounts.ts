/** Numbers that a text spells out. */
export const numberWords: Readonly<Record<string, number>> = {
  half: 0.5,
  a: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  twenty: 20,
  ein: 1,
  eine: 1,
  un: 1,
  une: 1,
  uno: 1,
  zwei: 2,
  deux: 2,
  dos: 2,
  drei: 3,
  vier: 4,
  funf: 5,
  sechs: 6,
  trois: 3,
  quatre: 4,
  cinq: 5,
  tres: 3,
  cuatro: 4,
  cinco: 5,
  seis: 6,
  siete: 7,
  ocho: 8,
};
/** "Truck 212", "WO 4471": a number that is a name; "truck 6 qt" is an amount. */
const namedNumber =
  /\b(?:bus|truck|unit|van|car|wo|ro|no|nr|inv|part|pn|po)\s*[.#:]*\s*#?\s*\d+\b(?![.,]\d)(?!\s*-?\s*(?:x|q|qts?|quarts?|l|lt|lts|ltrs?|lit(?:er|re|ro)s?|gals?|gallons?|pts?|pints?|ml)\b)/g;

const oilGrades = new Set([
  '0-16',
  '0-20',
  '0-30',
  '0-40',
  '5-20',
  '5-30',
  '5-40',
  '10-30',
  '10-40',
  '15-40',
]);
const asGrade = (match: string, cold: string, hot: string) =>
  oilGrades.has(match) ? `${cold}w-${hot}` : match;

const spoken: Readonly<Record<string, string>> = {
  zero: '0',
  five: '5',
  ten: '10',
  fifteen: '15',
  sixteen: '16',
  twenty: '20',
  thirty: '30',
  forty: '40',
};
/** "Five w thirty", "zero twenty". */
const spokenGrade = /\b(zero|five|ten|fifteen)[- ](?:w[- ])?(sixteen|twenty|thirty|forty)\b/g;
const asSpoken = (match: string, cold: string, hot: string) =>
  oilGrades.has(`${spoken[cold] ?? ''}-${spoken[hot] ?? ''}`) ? `${spoken[cold]}w-${spoken[hot]}` : match;

/** "Six and a half". */
const asHalves = (match: string, count: string) => {
  const whole = numberWords[count] ?? Number(count);
  return Number.isFinite(whole) ? `${whole}.5 ` : match;
};

/** "A quart", "lt 4,5" and ".7 l" written as the others are; numbers that are names left out. */
export function plainAmounts(folded: string): string {
  return (
    folded
      .replace(namedNumber, ' ')
      // A number of its own, no mark of an amount.
      .replace(/#(?=\s?[\dgb])/g, ' ')
      // Letters read for noughts: "5W-3O", "OW-20".
      .replace(/\b(\d{1,2}\s?w\s?-?\s?)([1-6])o\b/g, '$1$20')
      .replace(/\bo(w\s?-?\s?\d{2})\b/g, '0$1')
      .replace(/\b(0|5|10|15)\/40 (?=hd\b)/g, '$1w-40 ')
      // "Five (5) l", "litro y medio", "one and 1/4".
      .replace(/\b[a-z]+ \((\d{1,2})\)\s*(?=(?:qts?|quarts?|l|lit[a-z]*|gal[a-z]*|pints?)\b)/g, '$1 ')
      .replace(/\blitro y medio\b|\blitre et demi\b|\blitro e mezzo\b|\blitro e meio\b/g, '1.5 l')
      .replace(/\b(?:anderhalve|anderthalb|eineinhalb|poltora|poltory)\s+(?=lit)/g, '1.5 ')
      .replace(/\b(?:two|zwei|dos|deux)(?: and a half| y medio| et demi)\s+(?=lit|q|gal)/g, '2.5 ')
      .replace(/\bone and (?=\d\/\d)/g, '1 ')
      .replace(/\bthree[- ]quarters of an? (?=q|l)/g, '0.75 ')
      .replace(spokenGrade, asSpoken)
      // "5w30x6qt": a grade and an amount, no product of two numbers.
      .replace(/(\d{1,2}\s?w\s?-?\d{2})\s?x\s?(?=\d)/g, '$1 ')
      // An engine by its size: "5.3L V8".
      .replace(/\b\d\.\d\s?l\s+(?:[vil]-?\d{1,2}|inline|turbo|diesel)\b/g, ' ')
      // A grade without its letter: "15-40", no range of something measured.
      .replace(/\b(0|5|10|15)\/(?=40\b)/g, '$1-')
      .replace(/\b(0|5|10|15)-(16|20|30|40)\b(?!\s*(?:(?:mm|psi|bar|mi|km|min|h|deg)\b|%|,\d|\d))/g, asGrade)
      .replace(/(?<!half )\b(?:an?|another|one more) (?=(?:quart|litre|liter|gallon|pint|qt)\b)/g, '1 ')
      .replace(
        /\b(lt|ltr|litri|litros|liter|litres?)\.? ?(\d+(?:[.,]\d+)?)(?![\d.,]*\s*(?:(?:l|lt|ltr)\b|[w/]))/g,
        '$2 $1',
      )
      .replace(/(?:\b(?:1|one)\s+)?(quart|litre|liter|gallon) and a half\b/g, '1.5 $1')
      // "11 and a half litres", "1-1/2 quarts", "(2) 946 ml".
      .replace(/\b(\d+|[a-z]+) an?d? (?:a |one )?half (?=(?:quart|qt|l\b|lit|ltr|gal))/g, asHalves)
      .replace(/\b(\d+(?:[.,]\d+)?) us (?=q|gal)/g, '$1 ')
      .replace(/½/g, ' 1/2 ')
      .replace(/¼/g, ' 1/4 ')
      .replace(/(^|[,;.(]\s*)(?=(?:quart|litre|liter|gallon) (?:added|put|poured|in)\b)/g, '$11 ')
      // "3 gal less 1 qt (11 qt)": the sum stands behind.
      .replace(
        /\b\d+(?:[.,]\d+)? ?(?:us )?(?:gal|qt|quart|l)[a-z]*\b[^()=]{0,20}?(?:less|plus|minus|extra|\+|under)[^()=]{0,20}?(?:\(|= ?)(\d+(?:[.,]\d+)? ?(?:qts?|quarts?|l|litres?|liters?|gals?))(?: total)?\b\)?/g,
        ' $1 ',
      )
      .replace(
        /\b(added|add|poured|missing|another|extra|only|needed|low) (?=(?:quart|litre|liter|gallon|qt)\b(?! (?:low|down)))/g,
        '$1 1 ',
      )
      .replace(/\b(\d)-(?=\d\/\d\s*(?:q|l|gal|pint))/g, '$1 ')
      .replace(/\((\d{1,2})\)\s*(?=\d+\s*ml\b)/g, '$1 x ')
      .replace(/(^|[,;.:-]\s*)(?=(?:qt|quart|litre|liter) (?:of )?(?:\d{1,2}\s?w|oil\b))/g, '$11 ')
      .replace(/\bwith (?=(?:quart|litre|liter|gallon)\b)/g, 'with 1 ')
      .replace(/(^|\s)\.(?=\d)/g, '$10.')
      // "Oil +1 qt", "oil + 1/2 qt": what was added, no sum of two things.
      .replace(/\boil \+ (?=(?:\d\/\d|0[.,]\d+|1) ?(?:q|l))/g, 'oil added ')
      .replace(
        /(^|[\s,;:(])\+(?=\d+(?:[.,/]\d+)?\s*(?:qts?|quarts?|q|l|ltrs?|lit[a-z]*|gals?|gallons?|pints?|pts?|ml)\b)/g,
        '$1added ',
      )
      .replace(
        /\b(?:un )?(?:medio|mezzo|meio|demi|halbe[nr]?|halve|pol[au]?|puoli|polovinu|jumatate de|yarim|fel|en halv)[\s-]+(?=lit|cuarto|galon)/g,
        '0.5 ',
      )
      // "Motor oil qt 2 @ 6.99": a till writes the measure first.
      .replace(
        /(?<![\d/]\s*|\b(?:an?|half|one|two|three|four|five|six) )\b(qts?|gal)\.? (\d+(?:\.\d+)?) ?(?=@|x\b|$)/g,
        '$2 $1 ',
      )
  );
}
