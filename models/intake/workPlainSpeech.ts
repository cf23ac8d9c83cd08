const weekday =
  '(?:mon|tues?|wed|thu|thurs?|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday|tomorrow|tmrw)';
const shaft = '(cam|camshaft|crank|crankshaft)';
const filterWord = '(?:oil )?(?:filters?|filt\\b\\.?|fltr\\b\\.?)';

/** Turns of phrase in which people say in passing what was done and what was not. */
export const plainSpeech: readonly (readonly [RegExp, string])[] = [
  // A question and its answer: "OCV screen cleaned? no, renewed both", "re-used chain? No - installed new one".
  [
    /\b(?:re-?used?|cleaned|topped|reset|repaired|dropped|tightened)(?: (?:the |old )?(\w+))?\?\s*no\b(?=\s*[-,;:.]\s*(?:renewed|installed|replaced|new|fitted|changed|put))/g,
    ' $1 ',
  ],
  [/\b(cleaned|topped|topped off|topped up|changed|replaced)\?\s*no\b/g, ' not $1 '],
  // "Filter? none on shelf", "filter n/c", "nobody had a filter", "filter: no".
  [new RegExp(`\\b${filterWord}\\s*\\?\\s*(?:no|none|nope|nah|not)\\b`, 'g'), ' filter not done , '],
  [
    new RegExp(
      `\\b${filterWord}\\s*(?:[:=]|is|was)?\\s*(?:same same|same one|as is|wrong p\\/n|wrong part|(?:=|:)\\s*['"]?no)\\b`,
      'g',
    ),
    ' filter not done , ',
  ],
  [
    new RegExp(
      `\\b(?:nobody|no one|noone|they|we|i|store|stores|shop|parts) (?:had|has|have|stocked|carried)? ?(?:no|only had|had no|had a|only have|a|any|the) ${filterWord}(?: (?:in stock|on (?:the )?shelf|for (?:the|an?) other \\w+|for it|in|left|here))?`,
      'g',
    ),
    ' filter not done , ',
  ],
  [new RegExp(`(?<=;\\s*)${filterWord} (?:on )?${weekday}\\b`, 'g'), ' filter not done , '],
  [
    new RegExp(
      `\\b${filterWord} (?:every (?:2nd|second|other) (?:time|change|svc|service|one)|stays (?:another|one more|on)|would not (?:break|come|budge)|wouldn'?t (?:break|come|budge)|is (?:2|3|1|two|three|one|only)\\b[^.;,]*? old)`,
      'g',
    ),
    ' filter not done , ',
  ],
  [new RegExp(`\\bwill (?:do|change|get|replace) (?:the )?${filterWord}\\b`, 'g'), ' filter not done , '],
  [new RegExp(`\\b(oil|eng oil|engine oil) yes\\b`, 'g'), ' $1 changed '],
  [new RegExp(`\\b(${filterWord}) yes\\b`, 'g'), ' $1 changed '],
  // "Old filter off and new one fitted", "old filter stuck, new one on".
  [
    new RegExp(
      `\\bold ${filterWord}(?: (?:stuck|was stuck|off|removed|out|came off))?(?=[^.;|]{0,40}\\bnew one\\b)`,
      'g',
    ),
    ' oil filter ',
  ],
  // "Spun on filter", "put on the long filter", "std filter on".
  [
    /\b(?:spun|screwed|threw|slapped) (?:on )?(?:a |the |new )*(?:oil )?filter(?: on)?\b/g,
    ' , new oil filter ',
  ],
  [
    /\bput on (?:a |an |the )?(?:long|short|big|small|correct|right|new|std|standard|oe|oem|good|proper)? ?(?:oil )?filter\b/g,
    ' , new oil filter ',
  ],
  [/\b(?:std|standard|stock|regular|basic|oe|oem) filter on\b/g, ' , new oil filter '],
  [/\b(?:filter|element|insert|cartridge) elmt\b/g, ' filter element '],
  // A filter that was only loose: "filter was loose, tightened".
  [
    /\b(?:oil )?filter(?: (?:was|is|found|left|being))* loose\b(?:[,; ]+(?:and |so |we |just )*(?:re)?(?:tightened|snugged|nipped)(?: (?:it|up|down))*)/g,
    ' ',
  ],
  // What came out and what went in: "oil out, oil in", "old black oil out fresh oil in", "waste oil out, 13 l in".
  [
    /\b(?:old |black |dirty |used |waste |all )*oil out\b[ ,/;.&+-]*(?:and )?(?:(?:the )?(?:new|fresh|clean|good) )?oil (?:back )?in\b/g,
    ' oil changed ',
  ],
  [
    /\b(?:old|black|dirty|used|waste|sludge) (?:black |dirty |engine )?oil out\b[ ,/;.&+-]*(?:and )?(?=(?:new |fresh |in w)?[^.;]{0,12}#)/g,
    ' oil changed , ',
  ],
  [/\bdropped (?:the )?(?:old |sludge |black |dirty )+(?:engine )?oil\b/g, ' oil changed '],
  [
    /\bdrained (?:it all|the lot|everything|the black \w+|it)(?: out)?(?: and| &|,)?(?: (?:then )?(?:put|gave|poured))\b(?! (?:back|coolant))/g,
    ' oil changed , ',
  ],
  [
    /\bpulled (#\d+) (?:of )?(?:the )?(?:old |black |dirty )*(?:tar|oil|soup|sludge|gunk|mud)? ?out\b/g,
    ' oil changed , ',
  ],
  [
    /\b(?:oil extraction|extracted (?:the )?(?:old )?oil|used (?:the )?oil extractor|oil extractor used)\b[^.;]{0,40}?(?=,|\brefill|\bfresh|\bnew|#)/g,
    ' oil changed ',
  ],
  [
    /\b(?:replenished|refilled|filled|topped) (?:up )?(?:with|w\/)?\s*(#\d+(?: of)?(?: *#g)?(?: oil)?) (?:after|following) (?:draining|drain)\b(?: (?:the )?(?:old )?oil)?/g,
    ' oil changed $1 ',
  ],
  [/\b(?:put|poured) (#g|#\d+ ?(?:#g)?) (?:back )?in(?: it)? after draining\b[^.;]*/g, ' oil changed $1 '],
  [/\bfresh oil (?=(?:after|before|for) )/g, ' oil changed '],
  // "Took care of the oil", "did her oil".
  [
    /\b(?:took care of|did) (?:the|her|his|its|my|their) oil\b(?! (?:leak|pan|press|pump|cool|light|level|filter)|\s*(?:[&+/]|and\b|n\b|with|w\b))/g,
    ' oil changed ',
  ],
  // Topped up in other words.
  [
    /\b(?:oil )?level (?:was |is |at |found )*(?:low|min|at min|below min|short|down)\b[ ,;:.-]*(?:so |and )?(?:corrected|set right|adjusted|put right|made up|rectified)\b/g,
    ' oil topped up ',
  ],
  [
    /\boil (?:was |is |at |level )*(?:low|min|at min|below min)\b[ ,;:.-]*(?:so |and )?(?:corrected|set right|adjusted|put right|made up|rectified)\b/g,
    ' oil topped up ',
  ],
  [
    /\bbrought (?:the )?(?:engine )?oil (?:back )?(?:up )?to (?:the )?(?:full|level|mark|max)\b/g,
    ' oil topped up to full ',
  ],
  [/\btook on (?=#\d)/g, ' topped up oil '],
  [/\b(?:corrected|made up) (?:with|w\/) (?=(?:some|a bit|a little|#\d)\b)/g, ' topped up with '],
  // Sampled beside a change: "kept the sample for the lab", "lab bottle filled from drain stream".
  [/\b(?:sampled|drew a sample) (?:and|&|then|,) (?=(?:changed|drained|swapped))/g, ' oil sample taken , '],
  [
    /\b(?:kept|saved|held|set aside|bottled)(?: back)? (?:the |a |some |one )?(?:sample|bottle)\b[^.;,]{0,30}\b(?:lab|analysis)\b/g,
    ' , oil sample taken ',
  ],
  [/\blab (?:bottle|jar|vial)s? (?:was |were )?filled\b[^.;,]*/g, ' oil sample taken '],
  [/\b(?:fluid analysis kits?|oil analysis kits?) (?:drawn|taken|pulled)\b/g, ' oil sample taken '],
  // Both shaft sensors in one breath: "CMP/CKP sensors", "sensors: crank, 2x cam".
  [/\bcmp\s*[/&+,]\s*ckp\b(?: sens(?:or)?s?)?/g, ' cam sensor and crank sensor '],
  [/\bckp\s*[/&+,]\s*cmp\b(?: sens(?:or)?s?)?/g, ' crank sensor and cam sensor '],
  [
    new RegExp(
      `\\bsensors?\\s*[:(]\\s*(?:\\d\\s*x?\\s*)?${shaft}\\s*[,&+/]\\s*(?:and )?(?:\\d\\s*x?\\s*)?${shaft}\\b\\)?`,
      'g',
    ),
    ' $1 sensor and $2 sensor ',
  ],
  [
    new RegExp(
      `\\bcps\\s*[(,:-]?\\s*(?:replaced |renewed |new )?${shaft}(?: side| pos(?:ition)?)?\\b\\)?`,
      'g',
    ),
    ' $1 sensor replaced ',
  ],
  // The thing by its place: "belt (cam)", "belts in oil renewed (timing)", "belt that drives the cams".
  [/\bbelts?\s*\((?:cam|timing|distribution|cambelt|crank to cam)\)/g, ' timing belt '],
  [
    /\b(?:belt|strap) (?:that drives|driving|which drives|for) (?:the )?(?:cams?|camshafts?|cam drive|valve train)\b/g,
    ' timing belt ',
  ],
  [
    /\btiming (?:rubber|wet|toothed|tooth) belt\b|\btiming belt inside oil\b|\bbelts? in oil\b/g,
    ' timing belt ',
  ],
  [
    /\bkits? (?:de )?distribu\w*([^.;]{0,50}?)\(\s*(?:courroie|correa|correia|cinghia|belt|banda)\s*\)/g,
    ' timing belt $1 ',
  ],
  [/\btensioners?\s*\((?:hydraulic|hyd|oil fed)?[, ]*(?:timing )?chain\)/g, ' chain tensioner '],
  [
    /\btensioner (?:timing )?chain\b(?! (?:was |is |not |left|reus|kept|ok|stays|good))/g,
    ' chain tensioner ',
  ],
  [/\b(?:stretched )?chain\s*\(timing\)/g, ' timing chain '],
  [
    /(?<=(?:->|-|,|;|\+|&|\band)\s*)stat(?=\s*(?:[.,;&+]|$|repl|chang|new|opens|stuck|and\b))/g,
    ' thermostat ',
  ],
  // Where or how, no engine by itself: "ran engine warm", "noise from front of engine".
  [
    /\b(?:noise|rattle|knock|leak|squeal) (?:from|at|in) (?:the )?(?:front|top|rear|back|side) of (?:the )?engine\b/g,
    ' noise ',
  ],
  [/\b(?:ran|run|warmed|warm|started|idled) (?:up )?(?:the )?engine(?: (?:warm|hot|up|to temp))?\b/g, ' '],
  [/\bengine (?:is |was |runs |ran |now )?(?:too )?(?:quiet|cold|warm|hot|smooth|cool)\b/g, ' '],
  [
    /\b(?:welder|mower|pump|chipper|sprayer|tamper|saw|tiller|blower|compactor|auger|trencher|pressure washer) (?:engine|motor)\b(?= #)/g,
    ' ',
  ],
  [/\bmotor(?:ino)? de arranque\b|\bmotorino d'? ?avviamento\b/g, ' starter motor '],
  [
    /\b(?:wiper|blower|window|fan|seat|heater|door|lift|starter|pump) (?:motor|engine)\b([^.;|]{0,20}?[-,:]\s*)new (?:motor|one)\b/g,
    ' wiper motor $1 renewed ',
  ],
  // How often, and no inspection of its own: "annual oil & filter", "semi-annual oil change".
  [
    /\b(?:semi-?\s?annual|bi-?\s?annual|half-?\s?yearly|annual|yearly|quarterly|monthly|seasonal|scheduled|routine|regular|sched)(?: maint(?:enance)?(?: \d+k)?:?)? (?=(?:engine |eng )?(?:oil|lof|lube)\b)/g,
    ' ',
  ],
  [
    /\b(?:checked|adjusted|set|corrected)(?: and (?:adjusted|set|corrected))? (?:all )?(?:tire|tyre) pressures?\b/g,
    ' tires ',
  ],
  [/\b(?:inspect(?:ed)?|check(?:ed)?) (?:the )?(?:drain )?(?:plug|plugs|pug) threads?\b/g, ' '],
  // Nothing was done.
  [/\b(?:wants?|asks?|asking) \$ ?\d/g, ' quoted '],
  [/\bwe (?:only )?did nothing\b|\bi did nothing\b/g, ' nothing done '],
  [
    /\b(?:picked up|received|delivered)\b[^.;]{0,60}\b(?:for (?:the )?(?:cage|stock|shelf|stores|parts room)|from supplier|to stores)\b/g,
    ' ',
  ],
  [/\bput in (?:a )?(?:po|p\.o\.|purchase order|order|req|request) for\b/g, ' ordered '],
  [
    /\b(?:out of|no|ran out of) (?:gas|fuel|diesel|petrol)\b[ .,;:-]*(?:so )?(?:put|added|poured|gave|brought)\b/g,
    ' fuel ',
  ],
  [/\?{2,}/g, '? '],
  [/\b(?:just|only) (?:the )?oil(?: this time| today| again)?,? no filter\b/g, ' oil changed , no filter '],
  [
    /\b(?:oil )?filter (?:is )?only (?:changed |done )?every (?:second|other|2nd|third) \w+/g,
    ' filter not done ',
  ],
  [
    /\b(?:customer|owner|client|cust) keeps? (?:his|her|the|their) (?:\d+k? )?(?:old )?filter\b/g,
    ' filter not done ',
  ],
  [/\b(oil chg|oil change|lof|oil|filter)\s*[-=]\s*no\b(?=\s*(?:[.,;|]|$))/g, ' $1 not done '],
  [/\bfilter n\/a\b/g, ' , filter not done '],
  [/\bchanged (?:w\/|with) ?(?:a |new )*filter\b/g, ' changed oil with filter '],
  [
    /\bdrained (?:it )?all(?: out)?(?: and|,|;|&) (?:re)?filled (?:with |w\/ )?(?:new|fresh)\b/g,
    ' oil changed ',
  ],
  [/\bpump(?:ed)?[- ]?out (?:via|through|thru|by) (?:the )?(?:dip)?stick(?: tube)?\b/g, ' oil changed '],
  [/\s-+>\s*(?!#)/g, ' , '],
  [/\bw\s*\/\s*of\b(?=\s*(?:[.,;]|$))/g, ' with oil filter '],
  [
    /\bexchanged for (?:a |an )?(?:reman|rebuilt|new|used|exchange|factory) (?:unit|one|engine)\b/g,
    ' replaced ',
  ],
];
