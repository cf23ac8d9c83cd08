/** What a part of the oil pressure's gauge, warning or line is called: no reading. */
const pressurePart =
  '(?! ?(?:sens|send|switch|sw\\b|unit|transd|line|pipe|hose|relief|regul|valve|lamp|light|lite|lt\\b|warning|alarm|control|pump|gauge (?:repl|new|inop|inst|rep|dead|bad|fixed)))';
const readWord =
  '(?:test(?:ed)?|check(?:ed)?|read(?:ing|ings|s)?|gauge|verified|measured|confirmed|logged|recorded|psi|bar|kpa|\\d{2} (?:psi|hot|cold|at))';

/** Turns of phrase that say in several words what the catalog knows as one. */
export const turns: readonly (readonly [RegExp, string])[] = [
  // "Oil pressure test: 22 psi", "oil press at idle 7 psi", "mech oil pressure gauge: 62 cold".
  [
    new RegExp(
      `\\b(?:(?:engine|eng|mech|mechanical|motor|hot|low|cold) )*oil press(?:ure)?s?\\b\\.?${pressurePart}(?=[^.;|\\n]{0,40}?\\b${readWord}\\b)`,
      'g',
    ),
    ' oil pressure reading ',
  ],
  [
    new RegExp(
      `\\b(?:test|check|verif|measur|read|gaug|monitor)\\w* (?:the |engine |hot |idle )*oil press(?:ure)?\\b${pressurePart}`,
      'g',
    ),
    ' oil pressure reading ',
  ],
  [/\b(?:fresh|clean|good) (?=(?:oil )?filter\b)/g, ' new '],
  [/\bp\s*\/\s*m\b/g, ' pm '],
  [/\bo\.?\s*c\.?\s*[&+]\s*f\b/g, ' oil and filter '],
  [/(?<!l\.\s*)\bo\.\s*f\.(?=\s*(?:ch|repl|rpl|and\b|[&+,]))/g, ' oil filter '],
  // Service categories of oils, no check: "CK rated".
  [/\b(?:ck|cj|ci|fa|sn|sp)[ -](?=(?:rated|spec|plus|grade)\b)/g, ' '],
  // German splits the verb: "Kunde lehnt Ölwechsel ab".
  [/\blehnt(?:e|en)?\b([^.;|]{0,40}?)\bab\b/g, ' abgelehnt $1 '],
  // An addition and no change: "4 L added without draining".
  [
    /\b(?:without|no|not|w\s*\/\s*o|didn'?t|did not|never|ohne) (?:oil )?drain(?:ed|ing)?(?: (?:anything|it|oil|any))?\b(?! (?:plug|bolt|valve))/g,
    ' undrained ',
  ],
  // A reading, no alternator: "Tacho ersetzt alt 145320 neu 0".
  [/\balt\s*[=:]?\s*(?=\d{3})/g, ' old '],
  // The full stop of a short form ends no clause.
  [
    /\b(inkl|incl|einschl|zzgl|exkl|excl|bzw|approx|ca)\.(?=\s+(?:oil|filter|fltr|ol|the|new|both|neu|\d|#))/g,
    '$1 ',
  ],
  [/\bt\s*\/\s*u\b/g, ' topped '],
  [/\b(valves?|solenoids?) \(oil\)/g, '$1 '],
  [
    /\b(filtros?|filtres?|filtri|filtr|filtru|suodatin|szuro) (?:no|non|nie|nao|ne|nu|nem|ei)(?=\s*(?:[/,;|).]|$))/g,
    '$1 not done , ',
  ],
  [/\be\s*\/?\s*o\s*[+&]\s*f\b/g, ' oil and filter '],
  // Short forms of engine oil and its filter: "E/O & OF c/o", "7 qt + OF".
  [/\be\s*\/?\s*o\b(?=\s*(?:[&+,]|and\b|chg|chang|repl|renew|filt|fltr|was|c\/o|\/))/g, ' engine oil '],
  [
    /(?<=(?:[&+]|\band|engine oil) *)o\s*\/?\s*f\b(?!\s*(?:the|oil|a|an|our|his|her|all|them|which|engine)\b)/g,
    ' oil filter ',
  ],
  [/\bc\s*\/\s*o\b/g, ' changed '],
  // "By age", no date.
  [/\bdue by (?:age|time|miles|mileage|km|hours|date)\b/g, ' '],
  [/\b(?:started|begun|opened|left) on (?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b/g, ' '],
  [/\bc\s*\/\s*belt\b/g, ' timing belt '],
  // What an addition was for: "2 qts added to replace what spilled".
  [
    /(?<=#\d+ [a-z# ]{0,30})\bto (?:replace|make up for)\b(?! (?:the )?(?:chain|belt|filter|sensor|timing))/g,
    ' ',
  ],
];
