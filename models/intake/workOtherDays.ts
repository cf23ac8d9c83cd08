/** A stretch of time or road between another day and this one: "2 weeks", "300 miles", "a month". */
const stretch =
  '(?:\\d+(?:[.,]\\d+)?|an?|one|two|three|four|few|a few|some|a couple(?: of)?|couple(?: of)?|several)\\s*(?:days?|weeks?|wks?|months?|mos?|years?|yrs?|mi|miles|km|kms|k|hrs?|hours?)';
const back = '(?:ago|back|earlier|prior|before this)';
const month =
  '(?:jan|feb|mar|apr|jun|jul|aug|sep|sept|oct|nov|dec|january|february|march|april|june|july|august|september|october|november|december)';
const anotherDay = `(?:${stretch} ${back}|in ${month}\\b|last (?:week|wk|month|time|visit|svc|service|change|trip|oil change)|at \\d+(?:[.,]\\d+)?\\s*(?:k|km|mi|miles)?,? so |at (?:the )?(?:last|prior|previous) \\w+)`;
const changed = '(?:changed|replaced|renewed|done|swapped|fitted|installed|put on|new)';
const thing =
  '(?:lof|oil change|oil chg|oil service|oil svc|oil job|oil and filter(?: change)?|service|pm|chain job|timing job|belt job|timing chain job|timing belt job|phaser job|chain kit|chain|engine swap)';
const earlier =
  "(?:yesterday'?s?|prior|previous|earlier|recent|last|last (?:week|month|year)'?s?|another shop'?s?|other shop'?s?|somebody else'?s?|someone else'?s?|their|his own|dealer'?s?|the dealer'?s?)";

/** Turns of phrase that tell of another day's work, of which nothing is this day's. */
export const otherDays: readonly (readonly [RegExp, string])[] = [
  // "Filter was changed in Feb", "oil filter replaced 2 weeks back", "filter was done at 8k".
  [
    new RegExp(
      `\\b(filters?|filt|fltr|element)(?: (?:was|is|had been|has been|got|were))?(?: (?:just|only|already))? ${changed}(?: new)? (?:just |only |about )?${anotherDay}`,
      'g',
    ),
    ' $1 not done ',
  ],
  // "Oil was changed 300 miles back so we only put a filter on".
  [
    new RegExp(
      `\\b(?:engine )?oil (?:was|had been|got|has been) (?:just )?changed (?:about |only |just )?${stretch} ${back}(?: per \\w+)?(?=.*\\b(?:so (?:i|we)|only|nothing|no work|just)\\b)`,
      'g',
    ),
    ' , ',
  ],
  // "Timing chain replaced 2 days ago, comeback for rattle".
  [
    new RegExp(
      `\\b(?:timing )?(?:chain|belt|set|kit|engine|phasers?)(?: (?:was|were|had been))? (?:replaced|renewed|done|changed|fitted) ${stretch} ${back}(?=.*\\b(?:comeback|came back|again|rattle|leak|noise)\\b)`,
      'g',
    ),
    ' , ',
  ],
  // "Comeback on yesterday's LOF", "recheck after prior LOF", "interval oil change after timing job".
  [
    new RegExp(
      `\\b(?:comeback|come back|came back|recheck|re check|return|returned|redo|rework|warranty|back|leak|leaking|drip)?\\s*(?:on|(?<!order |b\\/o )from|after|since|following|for)\\s+(?:the |a |an |our |my )?(?:${earlier} )+${thing}\\b`,
      'g',
    ),
    ' ',
  ],
  [
    /\b(?:comeback|come back|came back|after|from|since|following)(?: (?:from|on|after|for))?(?: (?:the|a|our|his|their))? (?:timing|chain|timing chain|belt|timing belt|phaser|engine|oil|head) (?:job|work|swap)\b/g,
    ' ',
  ],
  [
    /^\s*(?:yesterday'?s?|last weeks?|prior|previous) (?:lof|oil change|service)\b(?=.*\b(?:leak|tighten|drip|snug|loose|seep)\w*)/g,
    ' ',
  ],
  // "Chain noise again after kit last month".
  [
    /\bafter (?:the )?(?:kit|set|chain|belt|job|lof|oil change|service) (?:last|in|from|back|of) (?:week|month|year|spring|summer|fall|winter|may|[a-z]{3})\b/g,
    ' ',
  ],
  // What is only said of an earlier interval: "no oil change in 18 months. Changed it".
  [
    new RegExp(
      `\\b(?:had |has had |with |there was |found )?no oil change (?:in|for|since) (?:over |about |nearly )?(?:${stretch}|\\d+|years|months|a year)[.,;: -]+(?=(?:so |we |i |finally )*(?:changed|did|drained|swapped|replaced))`,
      'g',
    ),
    ' oil ',
  ],
  // "Just the filter today. Oil was changed on the 3rd."
  [
    /\b(?:\w+ says )?(?:engine )?oil (?:was|had been|got) changed (?:in the shop |by \w+ |elsewhere )?on (?:the )?\d{1,2}(?:st|nd|rd|th)\b(?=[^|]*\b(?:only|nothing|no work)\b)/g,
    ' , ',
  ],
  [
    /\boil (?:was|had been|got) changed\b(?<=\b(?:just|only) the (?:engine )?(?:oil )?filter[^|]*)[^.;|]*/g,
    ' , ',
  ],
];
